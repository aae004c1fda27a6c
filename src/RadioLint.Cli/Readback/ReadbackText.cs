using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Cli.Readback;

/// <summary>For people: the verdict first, then what differs, then what was of the moment, then how much was read.</summary>
internal static class ReadbackText
{
    public static void Write(TextWriter output, ReadbackOutcome outcome, Paint paint, int? width)
    {
        foreach (var node in outcome.Judgement.Nodes)
            output.WriteLine($"{paint.Strong(Printable.Text(node.Name))}: {VerdictWords.Sentence(node)}");
        output.WriteLine();
        var report = new TextReport(output, paint, width);
        foreach (var finding in outcome.Findings)
            report.Write(finding);
        foreach (var node in outcome.Judgement.Nodes.Where(node => !node.Live.IsEmpty))
        {
            output.WriteLine($"{Printable.Text(node.Name)}, of the moment and not compared:");
            foreach (var (register, says) in node.Live)
                output.WriteLine($"  {register.Name} {says}");
            output.WriteLine();
        }
        output.WriteLine(Summary(outcome));
    }

    private static string Summary(ReadbackOutcome outcome)
    {
        var log = outcome.Log;
        var parts = new List<string> { TextReport.Count(log.Nodes.Count, "node"), TextReport.Count(outcome.Listings, "listing") };
        if (log.Packets > 0)
            parts.Add(TextReport.Count(log.Packets, "packet"));
        if (log.FirstGarbled is var (place, fault))
            parts.Add(FormattableString.Invariant($"{TextReport.Count(log.Garbled, "garbled report")} (the first in line {place.From.Line}: {fault})"));
        if (log.TooLong > 0)
            parts.Add(FormattableString.Invariant($"{TextReport.Count(log.TooLong, "line")} of more than {LogLimits.LongestLine} characters passed over"));
        if (log.PassedOver > 0)
            parts.Add(FormattableString.Invariant($"{TextReport.Count(log.PassedOver, "report")} of more than {LogLimits.MostNodes} nodes passed over"));
        return $"read {TextReport.Count(log.Lines, "line")} of {Printable.Text(log.Name)}: {string.Join(", ", parts)}{(log.IsCut ? "; the rest of the log is not read" : "")}: {Found(outcome)}";
    }

    private static string Found(ReadbackOutcome outcome)
    {
        var counts = new[] { Severity.Error, Severity.Warning, Severity.Info }
            .Select(severity => (Severity: severity, Count: outcome.Findings.Count(finding => finding.Severity == severity))).Where(one => one.Count > 0)
            .Select(one => one.Severity is Severity.Info ? FormattableString.Invariant($"{one.Count} info") : TextReport.Count(one.Count, TextReport.Word(one.Severity)));
        var said = string.Join(", ", counts);
        return said.Length == 0 ? "nothing found" : said;
    }
}
