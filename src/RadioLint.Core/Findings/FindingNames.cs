using System.Globalization;
using RadioLint.Text;

namespace RadioLint.Findings;

/// <summary>
/// Names that findings keep from run to run: 16 hex digits from the rule, the file's own name, nodes and link, and the words of the line, so that
/// lines may move. Equal ones are counted in the order of their places.
/// </summary>
public static class FindingNames
{
    /// <summary>Each finding with its name.</summary>
    public static IEnumerable<(Finding Finding, string Name)> Of(IEnumerable<Finding> findings)
    {
        var counts = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var finding in findings)
        {
            var words = Words(finding);
            counts.TryGetValue(words, out var before);
            counts[words] = before + 1;
            var name = NameHash.Of(FormattableString.Invariant($"{words}\n{before}")).ToString("X16", CultureInfo.InvariantCulture);
            yield return (finding, name);
        }
    }

    private static string Words(Finding finding)
    {
        var (source, line) = (finding.Place.Source, finding.Place.From.Line);
        var file = source.Name.Substring(source.Name.LastIndexOf('/') + 1);
        // Blanks and comments may change.
        var text = string.Concat(WithoutComment(source.Line(line)).Where(one => !char.IsWhiteSpace(one)));
        return $"{finding.Rule.Id}\n{file}\n{string.Join(" ", finding.NodeNames)}\n{finding.LinkName}\n{text}";
    }

    private static string WithoutComment(string line)
    {
        var at = line.IndexOf(" #", StringComparison.Ordinal);
        return at < 0 ? line : line.Substring(0, at);
    }
}
