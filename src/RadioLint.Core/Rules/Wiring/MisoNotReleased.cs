using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1202: a device on the bus is of a kind that does not let go of MISO.</summary>
public sealed class MisoNotReleased() : Rule(new(
    "RL1202", Severity.Warning, "Bus shared with a device that does not release MISO",
    "kinds reported on benches: storage cards on adapters with a level shifter, some Ethernet boards and card readers (common practice, no source); W5100 (its maker's application note, as quoted)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var other in node.SharesSpi)
            {
                if (other.Part is not { } part)
                    continue;
                var known = other.Miso is null ? BusDevices.In(part.Value)?.Miso.Value : null;
                var isHeld = other.Miso?.Value == "held" || known is UnselectedMiso.Held;
                if (!isHeld && known is null)
                    continue;
                yield return At(
                    node, other.Miso?.Place ?? part.Place,
                    isHeld ? (FormattableString)$"{part.Value} on the bus of `{node.Label}` holds MISO while it is not selected" : $"{part.Value} on the bus of `{node.Label}` is of a kind that often holds MISO while it is not selected",
                    $"put a tri-state buffer or a few kohm into its MISO and state `miso: buffered` or `miso: 2.2 kohm`, or use a second SPI; state `miso: released` once measured");
            }
        }
    }
}
