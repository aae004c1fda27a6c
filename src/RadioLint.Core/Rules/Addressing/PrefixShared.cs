using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Spectrum;
using RadioLint.Spectrum;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4301: another network of the site has the channel and the first bytes of the addresses.</summary>
public sealed class PrefixShared() : Rule(new(
    "RL4301", Severity.Error, "Two networks share channel and address prefix",
    "own rule: addresses that differ in their last byte alone are one network's pipes (nRF24L01+ Product Specification 1.0, 7.6)", "0.1")
{
    Silences = ["RL3207"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.Neighbours.Networks.All(other => other.Value.Address is null) || network.Nodes.FirstOrDefault(node => node.Part is not null) is not { } any)
            yield break;
        var own = NetworkOnAir.Of(network);
        foreach (var other in network.Neighbours.Networks)
        {
            if (OpenChannels.OnAir(any, other.Value) is not { } air)
                continue;
            foreach (var one in own)
            {
                if (Coexistence.SharedPrefix(one, air) is var (ours, theirs))
                    yield return Shared(network, other.Value, ours, theirs) with { Subject = other.Place };
            }
        }
    }

    private Finding Shared(Network network, OtherNetwork other, AddressOnAir ours, AddressOnAir theirs)
    {
        var named = other.Name is { } name ? $"network `{name.Value}`" : "another network";
        var said = ours.Address.Equals(theirs.Address)
            ? FormattableString.Invariant($"the address `{ours.Address}` of `{ours.Owner}` is also one of {named} on channel {other.Channel!.Value.Number}")
            : FormattableString.Invariant($"`{ours.Address}` of `{ours.Owner}` and `{theirs.Address}` of {named} share all but the last byte on channel {other.Channel!.Value.Number}");
        var node = network.Nodes.First(node => node.Name == ours.Owner);
        var edits = Edits(network, node, ours);
        return At(
            node, theirs.Place,
            other.Rate?.Value.Rate is null ? (FormattableString)$"{said}, if its rate is the same" : $"{said}",
            edits.Count > 0 ? (FormattableString)$"use another prefix for the pipes of `{node.Label}`"
                : $"use another prefix or another channel; addresses that nobody writes derive from the network's name",
            edits.Count > 0 ? [Offer($"Use the generated prefix for `{node.Label}`", edits)] : []) with
        {
            Severity = other.Rate?.Value.Rate is null ? Severity.Warning : Severity.Error,
            Related = See(ours.Place.FirstLine, $"`{ours.Address}` belongs to this"),
        };
    }

    // Every link that writes an address of this prefix keeps its last byte behind the generated prefix; nothing where pipes are the node's own.
    private static List<Edit> Edits(Network network, Node node, AddressOnAir ours)
    {
        var edits = new List<Edit>();
        var fresh = DerivedAddresses.Prefix(network.Name?.Value ?? "", node.Name, ours.Address.Width);
        foreach (var pipe in network.Plan.Of(node).Pipes.Where(pipe => pipe.Address is { } address && address.Width == ours.Address.Width && address.Prefix.AsSpan().SequenceEqual(ours.Address.Prefix.AsSpan())))
        {
            foreach (var link in pipe.Hops.Select(hop => hop.Link).Distinct())
            {
                if (link.Address is not { } written || node.OwnPipes is not null || link.To.Length > 1 || !written.Place.Text.Trim('"', '\'').StartsWith("0x", StringComparison.Ordinal))
                    return [];
                edits.Add(Edit.Value(written.Place, $"{new Address(fresh.Add(written.Value.Address.LowByte))}"));
            }
        }
        return fresh.AsSpan().SequenceEqual(ours.Address.Prefix.AsSpan()) ? [] : edits;
    }
}
