using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Links;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>How long giving a packet up may take: RL5106's and RL7004's question, asked before a delay is chosen.</summary>
internal static class Patience
{
    /// <summary>A sender's packets of known length that are acknowledged, as they would be sent with a delay.</summary>
    public static IEnumerable<Sending> Of(NodePlan plan, Duration delay)
    {
        if (plan is not { CheckBytes: { } crc, Node: { Part: { } part, Air: { ChosenRate: { } rate, Retry.Limit.Value: var limit } } node })
            yield break;
        var retry = new RetryPlan(delay, limit, false, ImmutableArray<Duration>.Empty);
        foreach (var hop in plan.Sends.Where(hop => hop.IsAcknowledged && hop.Link.Payload is { HasKnownSize: true }))
            yield return new(hop, retry, rate, node.Air.AddressWidth?.Value ?? Address.Widest, Math.Min(32, RetryPlanner.SentBytes(hop)), crc, node.Wiring.Clock ?? part.SpiFastest.Value);
    }

    /// <summary>The time that giving up may take, and what bounds it; null when nothing does.</summary>
    public static (Duration Time, string What)? Bound(Sending sending)
    {
        if (sending.Bound is not { } bound)
            return null;
        // A round through several nodes must end within the wanted freshness, each giving up.
        return sending.Hop.Link is { Within: { } within, From.Length: 1, To.Length: > 1 and var nodes } && within.Value.Nanoseconds / nodes < bound.Time.Nanoseconds / 2
            ? (new(within.Value.Nanoseconds / nodes), "its share of the round")
            : (new(bound.Time.Nanoseconds / 2), $"half of {bound.What}");
    }

    /// <summary>
    /// True where the times that are written suffice at a rate: delays for the acknowledgement (RL5102, RL5103), listening for the repetitions (RL5406), and what is wanted of giving up.
    /// </summary>
    public static bool Suffices(AtRate air) => air.Hops.All(hop =>
    {
        var plan = air.Plan.Of(hop.Sender);
        return ListensTooShort.IsLongEnough(air.Plan, hop)
            && (!hop.IsAcknowledged || hop.Sender is not { Part: { } part, Air: { ChosenRate: { } rate, Retry.Delay.Value.Delays: var delays } } || part.LeastRetryDelay(rate, RetryPlanner.ReturnedBytes(hop)) is not { } least
                || delays.All(delay => delay.Value >= least.Delay && Allows(plan, delay.Value)));
    });

    /// <summary>True where a sender may wait so long: with the repetitions that are written, or with one where nobody wrote how many.</summary>
    public static bool Allows(NodePlan plan, Duration delay) => Of(plan, delay).All(sending => Bound(sending) is not { } bound
        || sending.GivingUp(plan.Node.Air.Retry.Limit is { IsDefault: false } written ? written.Value : 1) <= bound.Time);
}
