using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8011: a name that nothing defines.</summary>
public static class UndefinedReference
{
    public static readonly Descriptor Rule = new(
        "RL8011", Severity.Error, "Reference to something not defined", "the manifest's own names and the shipped profiles", "0.1");

    public static Finding At(Place place, string name, string what, IEnumerable<string> known)
    {
        var names = known.ToList();
        var nearest = Nearest.To(name, names);
        return new(Rule, place, $"no {what} is called `{name}`",
            nearest is not null ? $"write `{nearest}`, or define `{name}`"
            : names.Count is 0 or > 24 ? $"define `{name}`"
            : $"define `{name}`, or use one of {string.Join(", ", names)}")
        {
            Fixes = nearest is null
                ? ImmutableArray<Fix>.Empty
                : ImmutableArray.Create(new Fix(FixGrade.Offered, $"Write `{nearest}`", ImmutableArray.Create(Edit.Value(place, nearest)))),
        };
    }

    public static Finding Circle(Place place, string name) =>
        new(Rule, place, $"`{name}` is based on itself, directly or through others", "base one of the profiles on a shipped one");
}
