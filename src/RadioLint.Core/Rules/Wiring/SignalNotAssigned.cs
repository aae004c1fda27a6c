using RadioLint.Findings;
using RadioLint.Hardware;
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
            foreach (var (signal, line) in lines)
            {
                if (line is not null)
                    continue;
                var free = FreePins.For(node, signal).Take(3).Select(pin => pin.Label).ToList();
                yield return At(
                    node, Where(node), $"`{node.Label}` has no pin for `{signal}`",
                    free.Count == 0
                        ? (FormattableString)$"add `{signal}:` to `pins`"
                        : $"add `{signal}:` to `pins`; free on {board.Name}: {string.Join(", ", free)}") with
                { Subject = (node, signal) };
            }
        }
    }

    private static Place Where(Node node)
    {
        if (!node.Writes("pins"))
            return node.NamePlace;
        var place = node.Wiring.Place;
        var end = place.Source.Text.IndexOfAny(['\n', '\r'], place.Start, place.Length);
        return end < 0 ? place : place with { Length = end - place.Start };
    }
}
