using System.Collections.Immutable;
using RadioLint.Findings;

namespace RadioLint.Cli.Checking;

/// <summary>What became of the findings between two checks.</summary>
/// <param name="Came">New ones, and those that say something else now.</param>
/// <param name="Went">Those that are no more, or that said something else, as they stood.</param>
internal sealed record Difference(ImmutableArray<Finding> Came, ImmutableArray<Finding> Went)
{
    /// <summary>Compares by the names that findings keep while lines move, by what they say and by their weight.</summary>
    public static Difference Between(CheckOutcome before, CheckOutcome now)
    {
        var (old, present) = (Known(before), Known(now));
        return new([.. now.Findings.Where(finding => !old.Contains(Key(now, finding)))], [.. before.Findings.Where(finding => !present.Contains(Key(before, finding)))]);
    }

    private static HashSet<(string, string, string, Severity)> Known(CheckOutcome outcome) => [.. outcome.Findings.Select(finding => Key(outcome, finding))];

    // Names know the file by its own name alone, so that a folder may move; here two files of one name are two.
    private static (string, string, string, Severity) Key(CheckOutcome outcome, Finding finding) =>
        (outcome.NameOf(finding), finding.Place.Source.Name, finding.Message, finding.Severity);
}
