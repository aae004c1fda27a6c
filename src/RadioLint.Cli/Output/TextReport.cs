using RadioLint.Cli.Checking;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Cli.Output;

/// <summary>
/// Findings for people, and for editors that know the GNU form of messages (GNU Coding Standards, "Formatting Error Messages"):
/// only the first line of a finding and its `note` lines have it.
/// </summary>
internal sealed class TextReport(TextWriter output, Paint paint, int? width = null)
{
    private const string Indent = "    ";
    private const string HelpLabel = "  help: ";

    public void Write(Finding finding)
    {
        var label = $"{Word(finding.Severity)} {finding.Rule.Id}";
        output.WriteLine($"{Where(finding.Place)}: {paint.Weight(label, finding.Severity)}: {Printable.Text(finding.Message)}");
        if (Excerpt.Of(finding.Place, Layout.Columns - Indent.Length) is var (excerpt, mark))
        {
            output.WriteLine(Indent + excerpt);
            output.WriteLine(Indent + paint.Weight(mark, finding.Severity));
        }
        // On a terminal broken between words; elsewhere one line, so that tools for lines can be used on it.
        var help = Printable.Text(finding.Help);
        foreach (var line in width is { } columns ? Layout.Wrap(help, columns, HelpLabel, new string(' ', HelpLabel.Length)) : [HelpLabel + help])
            output.WriteLine(line);
        foreach (var related in finding.Related)
            output.WriteLine($"{Where(related.Place)}: note: {Printable.Text(related.Message)}");
        output.WriteLine();
    }

    /// <summary>A finding that is no more, where it stood.</summary>
    public void WriteGone(Finding finding) =>
        output.WriteLine($"gone: {Where(finding.Place)}: {Word(finding.Severity)} {finding.Rule.Id}: {Printable.Text(finding.Message)}");

    /// <summary>One line: how much came and went, and how things stand now.</summary>
    public void WriteChange(Difference difference, CheckOutcome now) =>
        output.WriteLine(FormattableString.Invariant($"{difference.Came.Length} came, {difference.Went.Length} went; ") + Summary(now));

    /// <summary>The last line: how much was looked at, and how much of what weight was found.</summary>
    public void WriteSummary(CheckOutcome outcome) => output.WriteLine(Summary(outcome));

    public static string Summary(CheckOutcome outcome)
    {
        var extent = outcome.Extent;
        if (extent.Networks == 0)
            return $"could not read {Count(outcome.Unreadable, "file")} as a network: {Found(outcome)}";
        var unreadable = outcome.Unreadable == 0 ? "" : FormattableString.Invariant($", could not read {outcome.Unreadable} more");
        return $"checked {Count(extent.Networks, "network")} ({Count(extent.Nodes, "node")}, {Count(extent.Links, "link")})"
            + $" by {Count(extent.Rules, "rule")}{unreadable}: {Found(outcome)}";
    }

    public static string Word(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        Severity.Info => "info",
        _ => "silent",
    };

    public static string Count(int count, string what) => FormattableString.Invariant($"{count} {what}{(count == 1 ? "" : "s")}");

    private static string Found(CheckOutcome outcome)
    {
        var (errors, warnings, infos) = (outcome.Count(Severity.Error), outcome.Count(Severity.Warning), outcome.Count(Severity.Info));
        var parts = new List<string>();
        if (errors > 0)
            parts.Add(Count(errors, "error"));
        if (warnings > 0)
            parts.Add(Count(warnings, "warning"));
        if (infos > 0)
            parts.Add(FormattableString.Invariant($"{infos} info"));
        if (outcome.Known.Length > 0)
            parts.Add(FormattableString.Invariant($"{outcome.Known.Length} known"));
        return parts.Count == 0 ? "nothing found" : string.Join(", ", parts);
    }

    private string Where(Place place) =>
        paint.Strong(FormattableString.Invariant($"{Printable.Text(place.Source.Name)}:{place.From.Line}:{place.From.Column}"));
}
