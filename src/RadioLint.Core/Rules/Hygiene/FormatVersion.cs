using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8007: the manifest does not say its format, or says a newer one than this program reads.</summary>
public static class FormatVersion
{
    /// <summary>The format that this program reads and writes.</summary>
    public const int Current = 1;

    public static readonly Descriptor Rule = new(
        "RL8007", Severity.Error, "Format version missing or too new", "this program reads format 1", "0.1")
    {
        IsFixed = true,
    };

    public static Finding Missing(Place root, bool isFlow) =>
        new(Rule, root with { Length = 0 }, "the manifest does not say its format; format 1 is assumed",
            "add `radiolint: 1` as the first line")
        {
            Severity = Severity.Warning,
            Fixes = isFlow
                ? ImmutableArray<Fix>.Empty
                : ImmutableArray.Create(new Fix(FixGrade.Safe, "Add `radiolint: 1`", ImmutableArray.Create(new Edit(root with { Length = 0 }, "radiolint: 1\n")))),
        };

    public static Finding Other(Place place, long version) =>
        new(Rule, place, FormattableString.Invariant($"format {version} is not known; this program reads format {Current}"),
            version > Current ? "use a newer RadioLint" : FormattableString.Invariant($"write `radiolint: {Current}`"));
}
