using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8013: a bare number where several units are in use.</summary>
public static class UnitMissing
{
    public static readonly Descriptor Rule = new(
        "RL8013", Severity.Error, "Number without unit", "docs/manifest.md, section 1", "0.1");

    public static Finding At(Place place, string number, IEnumerable<string> units)
    {
        var examples = string.Join(" or ", units.Take(2).Select(unit => $"`{number} {unit}`"));
        return new(Rule, place, $"`{number}` has no unit", $"add the unit: {examples}");
    }

    public static Finding NoBlank(Place place, string found, string asMeant) =>
        new(Rule, place, $"`{found}` has no blank between number and unit", $"write `{asMeant}`");
}
