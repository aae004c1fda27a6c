using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>RL5406: a sleeper listens for a shorter time than its partner needs to reach it.</summary>
public sealed class ListensTooShort() : Rule(new(
    "RL5406", Severity.Error, "Listening window too short",
    "the sender's span of repetitions (nRF24L01+ Product Specification 1.0, 7.4.2) and what the sleeper's timer may be off by: 10 % for a watchdog, 100 ppm for a crystal (values from memory), "
    + "or as stated; a warning while 1 exchange fits", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Sleep is not { Listens: { Value.Window: { } window } listens } sleep)
                continue;
            var hops = network.Plan.Of(node).Receives.Where(Exchange.IsKnown).ToList();
            if (hops.Count == 0)
                continue;
            if (Drift(sleep) is not { } drift)
            {
                yield return Waits(node, "sleep.timer");
                continue;
            }
            var longest = hops.OrderByDescending(hop => Span(network.Plan, hop)).First();
            var need = Span(network.Plan, longest) + drift;
            if (window >= need)
                continue;
            var off = drift.Nanoseconds == 0 ? "" : FormattableString.Invariant($" and its own timer may be {drift} off");
            yield return At(
                node, listens.Place,
                $"`{node.Label}` listens for {window}, {need - window} too short: `{longest.Sender.Label}` sends for up to {Span(network.Plan, longest)}{off}",
                $"listen for {need}, or let `{node.Label}` ask and put the answer into the acknowledgement (`with: acknowledgement`)",
                Offer($"Listen for {need}", listens.Place, $"{need}")) with
            {
                Severity = window >= Exchange.Once(network.Plan, longest) + drift ? Severity.Warning : Severity.Error,
                Related = See(longest.Link.Place, $"what is sent to it is here"),
            };
        }
    }

    /// <summary>True where a receiver listens for long enough, or always, or nobody knows.</summary>
    internal static bool IsLongEnough(RadioPlan plan, Hop hop) =>
        hop.Receiver.Sleep is not { Listens.Value.Window: { } window } sleep || !Exchange.IsKnown(hop) || window >= Span(plan, hop) + (Drift(sleep) ?? new Duration(0));

    private static Duration Span(RadioPlan plan, Hop hop) =>
        hop.IsAcknowledged && plan.Of(hop.Sender).Retry is { Limit: > 0 } retry ? Exchange.Span(plan, hop, retry) : Exchange.Once(plan, hop);

    // Only who wakes by the clock can be early or late; null where the clock is not known.
    private static Duration? Drift(Sleep sleep)
    {
        if (sleep.Wakes is not { Value: { Kind: WakeKind.Every, Period: { } period } })
            return new(0);
        long? millionths = sleep.Timer?.Value switch
        {
            "watchdog" => 100_000,
            "crystal" => 100,
            { } text when text.EndsWith(" %", StringComparison.Ordinal) && decimal.TryParse(text.Substring(0, text.Length - 2), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var share)
                && share <= 100 => (long)(share * 10_000),
            _ => null,
        };
        return millionths is { } off ? new(period.Nanoseconds / 1_000_000 * off) : null;
    }
}
