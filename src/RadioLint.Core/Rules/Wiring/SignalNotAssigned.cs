using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1001: a line that the radio needs has no pin.</summary>
public sealed class SignalNotAssigned() : Rule(new(
    "RL1001", Severity.Error, "A needed signal is not assigned",
    "CE, CSN, SCK, MOSI and MISO, each once (nRF24L01+ Product Specification 1.0, section 2, pin list)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            // Somebody else's node need not be wired by us.
            if (node is not { Board: { } board, IsExternal: false })
                continue;
            var wiring = node.Wiring;
            var lines = new[] { ("ce", wiring.Ce), ("csn", wiring.Csn), ("sck", wiring.Sck), ("mosi", wiring.Mosi), ("miso", wiring.Miso) };
            var missing = lines.Where(line => line.Item2 is null).Select(line => line.Item1).ToList();
            if (missing.Count == 0)
                continue;
            var free = missing.Select(signal => FreePins.For(node, signal).Take(3).Select(pin => pin.Label).ToList()).ToList();
            // Data lines come as a group or not at all.
            var pins = missing.Zip(free, (signal, labels) => (Signal: signal, Label: labels.FirstOrDefault())).Where(pin => pin.Label is not null).Select(pin => (pin.Signal, pin.Label!)).ToArray();
            var proposal = missing.Count == 1 && free[0].Count > 0
                ? $"; free on {board.Name}: {string.Join(", ", free[0])}"
                : pins.Length > 0 ? $", for instance {string.Join(", ", pins.Select(pin => $"{pin.Signal} {pin.Item2}"))}" : "";
            yield return At(
                node, Where(node), $"`{node.Label}` has no pin for {string.Join(", ", missing.Select(signal => $"`{signal}`"))}",
                $"add {string.Join(", ", missing.Select(signal => $"`{signal}:`"))} to `pins`{proposal}",
                FurtherPins.For(node, pins) is { } edit ? [Offer($"Use {string.Join(", ", pins.Select(pin => $"{pin.Item2} for `{pin.Signal}`"))}", [edit])] : []);
        }
    }

    private static Place Where(Node node) => node.Writes("pins") ? node.Wiring.Place.FirstLine : node.NamePlace;
}
