using System.Text.RegularExpressions;
using RadioLint.Cli.Output;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>Verdicts of a survey in words, the same for every form of output.</summary>
internal static partial class SurveyWords
{
    /// <summary>The first line: what to take, and how the planned channel stands.</summary>
    public static string Verdict(SurveyedNetwork one)
    {
        var ranking = one.Ranking;
        var count = ranking.Ranked.Count();
        if (one.Channel is not { } best)
            return count == 0 ? "no channel that may be used was listened to" : one.Reason!;
        var reason = one.Reason is null ? FormattableString.Invariant($"the quietest of {count} that may be used") : one.Reason;
        var says = FormattableString.Invariant($"channel {best}, {ranking.Channels[best].Carrier.InMegahertz()}: {reason}");
        return ranking.Planned switch
        {
            null => $"{says}; none is planned yet",
            { } planned when planned == best => $"{says}, and the planned one",
            { } planned when ranking.Channels[planned].Rank is { } rank => FormattableString.Invariant($"{says}; planned is {planned}, rank {rank}"),
            { } planned => FormattableString.Invariant($"{says}; planned is {planned}, which is not ranked"),
        };
    }

    /// <summary>How long was listened, and whether that will do.</summary>
    public static string Time(ChannelRanking ranking)
    {
        var at = TextReport.Count(ranking.Places.Length, "place");
        var listened = ranking.Lasted is { } lasted ? $"listened for {Lapse.InWords(lasted)} at {at}" : $"listened at {at}, nobody knows how long";
        if (ranking.Ranked.Take(2).Count() < 2)
            return listened;
        return ranking.MoreTime switch
        {
            null => $"{listened}: first and second are alike, and listening on at this rate will not tell them apart",
            { Nanoseconds: 0 } => $"{listened}: enough to tell first and second apart",
            { } more => $"{listened}: go on for {Lapse.InWords(more)} to tell first and second apart",
        };
    }

    /// <summary>What a link would suffer from and the detector does not hear.</summary>
    public static string Blind(BlindZone zone)
    {
        var link = $"{zone.Hop.Receiver.Label} hears {zone.Hop.Sender.Label}";
        if (zone is not { Planned: { } planned, LeastHarmful: { } harmful })
            return $"{link} at a level that the manifest does not tell: below {zone.Threshold} anything may be there";
        return harmful < zone.Threshold
            ? $"{link} at {planned}: signals from {harmful} to {zone.Threshold} ruin that and stay unseen"
            : $"{link} at {planned}: whatever ruins that, from {harmful} upward, is seen";
    }

    /// <summary>Channels that are out, in runs, each with the reason of its first.</summary>
    public static IEnumerable<string> Out(ChannelRanking ranking)
    {
        for (var first = 0; first < Sweep.Channels; first++)
        {
            if (ranking.Channels[first].WhyOut is not { } why)
                continue;
            var last = first;
            while (last + 1 < Sweep.Channels && ranking.Channels[last + 1].WhyOut is { } next && Kind(next) == Kind(why))
                last++;
            yield return last == first
                ? FormattableString.Invariant($"{first}: {why}")
                : FormattableString.Invariant($"{first} to {last}{(Kind(why) == why ? "" : ", the first")}: {why}");
            first = last;
        }
    }

    /// <summary>How much of a log was of use.</summary>
    public static string Extent(HeardLog heard)
    {
        var log = heard.Log;
        var parts = new List<string> { Count(log.Sweeps, "sweep"), log.Places.Length == 1 ? $"taken at {log.Places[0]}" : TextReport.Count(log.Places.Length, "place") };
        if (log.FirstBroken is var (place, fault))
            parts.Add(FormattableString.Invariant($"{TextReport.Count(log.Broken, "broken line")} (the first in line {place.From.Line}, column {place.From.Column}: {fault})"));
        if (log.TooLong > 0)
            parts.Add(FormattableString.Invariant($"{TextReport.Count(log.TooLong, "line")} of more than {SurveyLimits.LongestLine} characters passed over"));
        if (log.PassedOver > 0)
            parts.Add(FormattableString.Invariant($"{TextReport.Count(log.PassedOver, "row")} of more than {SurveyLimits.MostPlaces} places passed over"));
        if (log.Outside > 0)
            parts.Add($"{TextReport.Count(log.Outside, "row")} outside of 2400 MHz to 2525 MHz passed over");
        if (log.EndsOpen)
            parts.Add("the last line has no end and is not used");
        if (log.IsCut)
            parts.Add("the rest of the log is not read");
        return $"read {TextReport.Count(log.Lines, "line")} of {log.Name}: {string.Join(", ", parts)}";
    }

    private static string Count(long count, string what) => FormattableString.Invariant($"{count} {what}{(count == 1 ? "" : "s")}");

    // Reasons that differ in figures alone are of one kind.
    private static string Kind(string why) => Figures().Replace(why, "0");

    [GeneratedRegex("[0-9]+([.][0-9]+)?")]
    private static partial Regex Figures();
}
