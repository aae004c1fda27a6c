using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4203: two receivers answer for the same address, at the same time.</summary>
public sealed class AcknowledgedTwice() : Rule(new(
    "RL4203", Severity.Error, "Two receivers acknowledge the same address",
    "1 receiver for an acknowledged address: the answer follows 130 us after the packet, from each alike (nRF24L01+ Product Specification 1.0, 7.4 and Table 16)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var listeners = Listeners(network);
        if (listeners.Count == 0)
            yield break;
        var seen = new HashSet<Address>();
        foreach (var hop in network.Hops)
        {
            if (hop.Link.RidesInAcknowledgement || hop.Link.IsBroadcast || !hop.IsAcknowledged || hop.Pipe is null
                || hop.Address is not { } address || !listeners.TryGetValue(address, out var all) || seen.Contains(address))
            {
                continue;
            }
            var sender = network.Plan.Of(hop.Sender);
            var both = all.Where(one => one.Plan != sender && Hears(sender, one.Plan)).OrderBy(one => one.Plan.Node.Name, NaturalOrder.Instance).ToList();
            if (both.Select(one => one.Plan.Node).Distinct().Skip(1).Any() && seen.Add(address))
                yield return Judge(network, hop, address, both);
        }
    }

    private Finding Judge(Network network, Hop hop, Address address, List<Listener> both)
    {
        // The receiver itself need not be among them, where other settings keep it from hearing the sender.
        var place = hop.Link.Address?.Place ?? both.Find(one => one.Plan.Node.Equals(hop.Receiver))?.Place ?? hop.Link.ToPlace;
        var others = both.Select(one => one.Place).Where(other => other != place).Distinct().ToList();
        return At(
            hop, place,
            $"{Names(both)} acknowledge `{address}` and would answer `{hop.Sender.Label}` at once",
            $"give each an address of its own, or send without acknowledgement as a broadcast",
            Apart(network, both, place)) with
        { Related = ImmutableArray.CreateRange(others.Select(other => new RelatedPlace(other, "the same address is here"))) };
    }

    // The first keeps the address; a link that writes it for another receiver gets one of its own.
    private static Fix[] Apart(Network network, List<Listener> both, Place kept)
    {
        var edits = new List<Edit>();
        foreach (var other in both)
        {
            foreach (var link in other.Pipe.Hops.Select(hop => hop.Link).Distinct())
            {
                if (link.Address is not { } written || written.Place == kept || other.Plan.Node.OwnPipes is not null || link.To.Length > 1)
                    continue;
                if (WrittenAddresses.Fresh(network, other.Plan.Node, other.Pipe.Hops[0].Sender.Name, written.Value.Address.Width) is { } fresh)
                    edits.Add(Edit.Value(written.Place, $"{fresh}"));
            }
        }
        return edits.Count == 0 ? [] : [Offer("Use generated addresses for the others", edits)];
    }

    private static string Names(List<Listener> both)
    {
        var names = both.Select(one => $"`{one.Plan.Node.Name}`").Distinct().ToList();
        return names.Count <= 3
            ? $"{string.Join(", ", names.Take(names.Count - 1))} and {names[names.Count - 1]} both".Replace(" both", names.Count == 2 ? " both" : " all")
            : FormattableString.Invariant($"{string.Join(", ", names.Take(3))} and {names.Count - 3} more all");
    }

    // Only addresses that more than one node acknowledges.
    private static Dictionary<Address, List<Listener>> Listeners(Network network)
    {
        var all = new Dictionary<Address, List<Listener>>();
        foreach (var plan in network.Plan.Nodes)
        {
            foreach (var pipe in plan.Pipes.Where(pipe => pipe is { Acknowledges: true, Address: not null }))
            {
                if (!all.TryGetValue(pipe.Address!, out var list))
                    all.Add(pipe.Address!, list = []);
                list.Add(new(plan, pipe));
            }
        }
        return all.Where(pair => pair.Value.Count > 1).ToDictionary(pair => pair.Key, pair => pair.Value);
    }

    private static bool Hears(NodePlan sender, NodePlan receiver) =>
        sender.Node.Air.ChosenChannel == receiver.Node.Air.ChosenChannel && sender.Node.Air.ChosenRate == receiver.Node.Air.ChosenRate
        && sender.CheckBytes == receiver.CheckBytes && sender.HasControlField == receiver.HasControlField;

    private sealed record Listener(NodePlan Plan, OpenPipe Pipe)
    {
        public Place Place => Plan.Node.OwnPipes is not null ? Pipe.Place : Pipe.Hops.Select(hop => hop.Link.Address).FirstOrDefault(address => address is not null)?.Place ?? Pipe.Place;
    }
}
