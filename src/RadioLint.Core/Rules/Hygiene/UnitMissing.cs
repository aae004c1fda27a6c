using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8013: a bare number where several units are in use, or a unit that is spelt otherwise than the manifest does.</summary>
public static class UnitMissing
{
    public static readonly Descriptor Rule = new(
        "RL8013", Severity.Error, "Number without unit", "docs/manifest.md, section 1", "0.1");

    public static Finding At(Place place, string number, IEnumerable<string> units)
    {
        var examples = string.Join(" or ", units.Take(2).Select(unit => $"`{number} {unit}`"));
        return new(Rule, place, $"`{number}` has no unit", $"add the unit: {examples}") { IsTelling = true };
    }

    /// <param name="text">What was read, which may be a part of the scalar: `10m` of `every 10m`.</param>
    internal static Finding Misspelt(LocatedScalar scalar, string text, Slip slip) =>
        new(Rule, scalar.Place, slip.Fault, $"write `{slip.Meant}`") { IsTelling = true, Fixes = Remedy.Write(scalar, text, slip.Meant) };
}
