using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4003: an address has more or fewer bytes than the addresses of its network.</summary>
public sealed class AddressOfOtherWidth() : Rule(new(
    "RL4003", Severity.Error, "Address with more or fewer bytes than stated",
    "one width for all pipes and the transmitter (nRF24L01+ Product Specification 1.0, 7.6 and Table 28, SETUP_AW)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.Address is not { } written || Width(hop.Sender) is not { } sender || Width(hop.Receiver) is not { } receiver)
                continue;
            // Where the two ends differ themselves, RL4202 says so.
            var found = written.Value.Address.Width;
            if (found != sender && found != receiver)
                yield return Judge(hop.Receiver, written.Place, written.Value, sender) with { LinkName = hop.Link.Name };
        }
        foreach (var node in network.DistinctNodes)
        {
            if (node.OwnPipes is not { } own || Width(node) is not { } width)
                continue;
            foreach (var pipe in own)
            {
                // Pipes 2 to 5 hold one byte and may be written as such.
                if (pipe.Address is { } written && written.Value.Address.Width != width && !(pipe.Number >= 2 && written.Value.Address.Width == 1))
                    yield return Judge(node, written.Place, written.Value, width);
            }
        }
    }

    private Finding Judge(Node node, Place place, WrittenAddress written, int width) => At(
        node, place,
        $"`{written.Address}` has {written.Address.Width} byte{(written.Address.Width == 1 ? "" : "s")} where addresses have {width}",
        written.Address.Width is >= Address.Narrowest and <= Address.Widest
            ? (FormattableString)$"write {width} bytes, two digits each, first byte on air first; or state `address-width: {written.Address.Width}` if that is what the radios have"
            : $"write {width} bytes, two digits each, first byte on air first") with
    { Subject = place };

    // A width that the chip does not offer is RL4001.
    private static int? Width(Node node) => node.Air.AddressWidth is { Value: >= Address.Narrowest and <= Address.Widest and var width } ? width : null;
}
