using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Survey;

namespace RadioLint.Cli.Survey;

/// <summary>For people: what to take, the band as a picture, the ranking with its reasons and what it cannot know, then findings, then how much was read.</summary>
internal static class SurveyText
{
    private const int MostRanked = 8;
    private const int MostBlind = 8;

    public static void Write(TextWriter output, SurveyOutcome outcome, Paint paint, int? width)
    {
        foreach (var one in outcome.Networks)
        {
            foreach (var line in Layout.Wrap($"{paint.Strong(Printable.Text(one.Name))}: {SurveyWords.Verdict(one)}", Layout.Columns))
                output.WriteLine(line);
            output.WriteLine();
            foreach (var line in BandPicture.Lines(one.Ranking, one.Channel))
                output.WriteLine(line);
            output.WriteLine();
            WriteRanking(output, one);
            output.WriteLine();
        }
        var report = new TextReport(output, paint, width);
        foreach (var finding in outcome.Findings)
            report.Write(finding);
        foreach (var log in outcome.Logs)
            output.WriteLine(Printable.Text(SurveyWords.Extent(log)));
        output.WriteLine(Found(outcome));
    }

    private static void WriteRanking(TextWriter output, SurveyedNetwork one)
    {
        var ranking = one.Ranking;
        output.WriteLine("  rank  channel     MHz  why");
        var shown = ranking.Ranked.Take(MostRanked).ToList();
        foreach (var more in new[] { one.Channel, ranking.Planned })
        {
            if (more is { } number && shown.TrueForAll(each => each.Channel != number) && ranking.Channels[number].Rank is not null)
                shown.Add(ranking.Channels[number]);
        }
        foreach (var channel in shown.OrderBy(each => each.Rank))
        {
            var mark = channel.Channel == ranking.Planned ? 'P' : ' ';
            var carrier = channel.Carrier.InMegahertz().Replace(" MHz", "", StringComparison.Ordinal);
            Row(output, FormattableString.Invariant($"{channel.Rank,6}  {mark} {channel.Channel,5}  {carrier,6}  "), string.Join("; ", channel.Reasons));
        }
        if (ranking.Ranked.Count() is var count && count > shown.Count)
            output.WriteLine(FormattableString.Invariant($"        and {count - shown.Count} more: `--format json` has them all"));
        var runs = SurveyWords.Out(ranking).ToList();
        foreach (var run in runs)
            Row(output, "   out  ", run);
        if (runs.Count > 0)
            Row(output, "        ", "listening there is allowed, sending is not; the rules of the place of use govern");
        Row(output, "  time  ", SurveyWords.Time(ranking));
        foreach (var zone in ranking.Blind.Take(MostBlind))
            Row(output, " blind  ", SurveyWords.Blind(zone));
        if (ranking.Blind.Length > MostBlind)
            Row(output, " blind  ", FormattableString.Invariant($"and {ranking.Blind.Length - MostBlind} more links"));
    }

    private static void Row(TextWriter output, string head, string text)
    {
        foreach (var line in Layout.Wrap(Printable.Text(text), Layout.Columns, head, new string(' ', head.Length)))
            output.WriteLine(line);
    }

    private static string Found(SurveyOutcome outcome)
    {
        var counts = new[] { Severity.Error, Severity.Warning, Severity.Info }
            .Select(severity => (Severity: severity, Count: outcome.Findings.Count(finding => finding.Severity == severity))).Where(one => one.Count > 0)
            .Select(one => one.Severity is Severity.Info ? FormattableString.Invariant($"{one.Count} info") : TextReport.Count(one.Count, TextReport.Word(one.Severity)));
        var said = string.Join(", ", counts);
        return $"surveyed for {TextReport.Count(outcome.Networks.Length, "network")}: {(said.Length == 0 ? "nothing found" : said)}";
    }
}
