using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4202: the two ends of a link do not agree; all that differs is one finding.</summary>
public sealed class EndsDiffer() : Rule(new(
    "RL4202", Severity.Error, "The two ends of a link differ",
    "same channel, rate, address width, CRC, acknowledgement and length at both ends (nRF24L01+ Product Specification 1.0, 6.2, 6.3, 7.3, 7.9)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // A hub that is odd is at odds with all: links that differ in the same places are told of together.
        var pairs = new Dictionary<string, Pair>(StringComparer.Ordinal);
        var order = new List<Pair>();
        foreach (var hop in network.Hops)
        {
            if (hop.Link.RidesInAcknowledgement)
                continue;
            var differences = Difference.Of(network, hop).ToList();
            if (differences.Count == 0)
                continue;
            var pair = Pair.Of(network, hop, differences);
            if (pairs.TryGetValue(pair.Key, out var same))
                same.Add(hop, differences);
            else
                order.Add(pairs[pair.Key] = pair);
        }
        return order.Select(Judge);
    }

    private Finding Judge(Pair pair)
    {
        var rest = pair.Others == 0 ? "" : FormattableString.Invariant($" (and on {pair.Others} more link{(pair.Others == 1 ? "" : "s")})");
        var lines = pair.Differences.Select(one => $"{one.Key} {pair.Odd(one).Text} at `{pair.OddNode.Label}`, {pair.Even(one).Text} at `{pair.EvenNode.Label}`");
        return At(
            pair.Hop, pair.Place,
            $"the ends differ in {pair.Differences.Count} setting{(pair.Differences.Count == 1 ? "" : "s")}{rest}: {string.Join("; ", lines)}",
            pair.Differences.Exists(one => one.Key == Difference.ControlField)
                ? (FormattableString)$"give both ends the same values; for the control field, let a pipe of each acknowledge, or none of either"
                : $"give both ends the same values",
            pair.Aligned().ToArray()) with
        {
            Severity = pair.IsHarmless ? Severity.Warning : Severity.Error,
            Related = pair.Related(),
        };
    }

    // The end that states values of its own where the other has the network's is the odd one; its place comes first.
    private sealed class Pair
    {
        private readonly HashSet<string> labels = new(StringComparer.Ordinal);
        private readonly bool isSenderOdd;

        private readonly Network network;

        private Pair(Network network, Hop hop, List<Difference> differences, bool isSenderOdd)
        {
            this.network = network;
            Hop = hop;
            Differences = differences;
            this.isSenderOdd = isSenderOdd;
            Place = Differences.Select(Odd).Concat(Differences.Select(Even)).FirstOrDefault(end => end.IsWritten)?.Place ?? hop.Link.ToPlace;
            Key = string.Join(" ", Differences.Select(one => FormattableString.Invariant(
                $"{one.Key} {Odd(one).Place.Start} {Odd(one).Text} {Even(one).Place.Start} {Even(one).Text}")));
            IsHarmless = true;
            Add(hop, differences);
        }

        public Hop Hop { get; }

        public List<Difference> Differences { get; }

        public Place Place { get; }

        public string Key { get; }

        /// <summary>True when packets are delivered all the same, in each direction.</summary>
        public bool IsHarmless { get; private set; }

        public int Others => labels.Count - 1;

        public Node OddNode => isSenderOdd ? Hop.Sender : Hop.Receiver;

        public Node EvenNode => isSenderOdd ? Hop.Receiver : Hop.Sender;

        public static Pair Of(Network network, Hop hop, List<Difference> differences)
        {
            var sender = differences.Count(one => IsOwn(network, one.AtSender));
            var receiver = differences.Count(one => IsOwn(network, one.AtReceiver));
            return new(network, hop, differences, sender == receiver ? Degree(network, hop.Sender) <= Degree(network, hop.Receiver) : sender > receiver);
        }

        // The same two nodes in both directions are one link.
        public void Add(Hop hop, List<Difference> differences)
        {
            labels.Add(string.Join(" ", new[] { hop.Sender.Label, hop.Receiver.Label }.OrderBy(label => label, StringComparer.Ordinal)));
            IsHarmless &= differences.TrueForAll(one => one.IsHarmless);
        }

        public EndSetting Odd(Difference one) => isSenderOdd ? one.AtSender : one.AtReceiver;

        public EndSetting Even(Difference one) => isSenderOdd ? one.AtReceiver : one.AtSender;

        public ImmutableArray<RelatedPlace> Related() => ImmutableArray.CreateRange(Differences
            .SelectMany(one => new[] { (Node: OddNode, one.Key, End: Odd(one)), (Node: EvenNode, one.Key, End: Even(one)) })
            .Where(end => !end.End.IsWritten || end.End.Place != Place)
            .Select(end => end.End.IsWritten
                ? new RelatedPlace(end.End.Place, $"{end.Key} of {end.Node.Label}: {end.End.Text}")
                : new RelatedPlace(end.Node.NamePlace, $"{end.Key} of {end.Node.Label}: {end.End.Text}, the default")));

        // Somebody else's node cannot be changed here.
        public IEnumerable<Fix> Aligned()
        {
            if (!OddNode.IsExternal && IsSound(EvenNode) && Fits(OddNode, EvenNode) && Differences.TrueForAll(one => Odd(one).IsWritten && Even(one).InManifest is not null))
                yield return Offer($"Give `{OddNode.Label}` the values of `{EvenNode.Label}`", Differences.Select(one => Edit.Value(Odd(one).Place, Even(one).InManifest!)));
            else if (!EvenNode.IsExternal && IsSound(OddNode) && Fits(EvenNode, OddNode) && Differences.TrueForAll(one => Even(one).IsWritten && Odd(one).InManifest is not null))
                yield return Offer($"Give `{EvenNode.Label}` the values of `{OddNode.Label}`", Differences.Select(one => Edit.Value(Even(one).Place, Odd(one).InManifest!)));
        }

        // What no radio takes (RL3001, RL4001) and no region allows (RL3002) is not copied.
        private bool IsSound(Node node) => node.Air.AddressWidth is not { Value: < Address.Narrowest or > Address.Widest }
            && (node.Part is null || node.Air.ChosenChannel is not { } channel || OpenChannels.For(network, node, node.Air.ChosenRate).Contains(channel));

        // An address that is written as text, which has no spare characters, would no longer be as wide as its sender's.
        private bool Fits(Node changed, Node model) => Differences.TrueForAll(one => one.Key != Difference.AddressWidth)
            || network.Plan.Of(changed).Sends.All(hop => hop.Link.Address is not { Value: { Form: not AddressForm.Digits } written } || written.Address.Width == model.Air.AddressWidth?.Value);

        private static int Degree(Network network, Node node) => network.Plan.Of(node).Sends.Length + network.Plan.Of(node).Receives.Length;

        private static bool IsOwn(Network network, EndSetting end) =>
            end.IsWritten && (network.Air.Place == network.Place || end.Place.Start < network.Air.Place.Start || end.Place.End > network.Air.Place.End);
    }
}
