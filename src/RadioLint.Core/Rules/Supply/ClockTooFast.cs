using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2014: the controller runs faster than its supply allows.</summary>
public sealed class ClockTooFast() : Rule(new(
    "RL2014", Severity.Warning, "Clock too fast for the supply",
    "straight lines between the corners of the board's profile; ATmega328P 4 MHz at 1.8 V, 10 MHz at 2.7 V, 20 MHz at 4.5 V (ATmega328/P data sheet 42735A, figure 32-1)", "0.1"))
{
    // The divider of classic AVR clocks, 1 to 256 in powers of two (ATmega328/P data sheet 42735A, section 13.12.2, from memory).
    private const int MostDivided = 256;

    // What a message shows: 13.3 MHz, not 13.333333 MHz.
    private const long Step = 100_000;

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { Clock: { } clock, ClockCorners: var corners } board || RadioRail.AtController(node) is not { } rail
                || ClockLimit.At(corners, rail.Nominal) is not { } most || clock.Value <= most)
            {
                continue;
            }
            // On cells it should fit to their end.
            var goal = ClockLimit.At(corners, rail.Low) is { Hertz: > 0 } toTheEnd ? toTheEnd : most;
            var divider = 2;
            while (divider <= MostDivided && clock.Value.Hertz > goal.Hertz * divider)
                divider *= 2;
            var divided = new Frequency(clock.Value.Hertz / divider);
            yield return At(
                node, IsWritten(network, clock.Place) ? clock.Place : node.BoardPlace.FirstLine,
                $"{board.Chip} of `{node.Label}` runs at {clock.Value}, {Limit(clock.Value, most, rail.Nominal, corners[0].Supply)}",
                divider > MostDivided
                    ? (FormattableString)$"feed the controller at least {corners[0].Supply}, or use a grade of the chip that works at {rail.Nominal} and give its `clock-limit` under `boards`"
                    : (FormattableString)$"divide the clock by {divider}, to {divided}, and state it as the board's `clock`",
                divider <= MostDivided && IsWritten(network, clock.Place) ? [Offer($"Run at {divided}", clock.Place, $"{divided}")] : []);
        }
    }

    private static string Limit(Frequency clock, Frequency most, Voltage supply, Voltage least)
    {
        if (most.Hertz == 0)
            return $"and its data sheet gives no clock at {supply}, {least - supply} below its least supply of {least}";
        var allowed = most.Hertz < Step ? most : new(most.Hertz / Step * Step);
        return $"{clock - allowed} above the {allowed} that its data sheet allows at {supply}";
    }

    // A shipped profile's clock stands in the profile.
    private static bool IsWritten(Network network, Place place) => place.Length > 0 && ReferenceEquals(place.Source, network.Source);
}
