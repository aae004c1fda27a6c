using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1021: CE is not driven by a pin.</summary>
public sealed class CeTied() : Rule(new(
    "RL1021", Severity.Warning, "CE tied to a fixed level",
    "CE changes the mode; high with nothing to send is standby-II at 320 uA, low is standby-I at 26 uA (nRF24L01+ Product Specification 1.0, Tables 4 and 15); a packet takes a pulse of 10 us (Table 16)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Wiring.Ce is not { Tie: not PinTie.None } line)
                continue;
            var free = FreePins.For(node, "ce").FirstOrDefault();
            yield return At(
                node, line.Place, Words(node, line.Tie),
                free is null ? (FormattableString)$"drive CE from a pin" : $"drive CE from a pin, for instance {free.Label}",
                FreePins.Instead(network, node, line, free)) with
            { Severity = line.Tie is PinTie.High ? Severity.Warning : Severity.Error };
        }
    }

    private static FormattableString Words(Node node, PinTie tie) => tie switch
    {
        PinTie.High => $"CE of `{node.Label}` is tied high: the radio cannot rest in standby-I and draws 320 uA with nothing to send",
        PinTie.Low => $"CE of `{node.Label}` is tied low: the radio stays in standby-I and neither sends nor receives",
        _ => $"CE of `{node.Label}` follows SCK: it is high for single bits only, and sending takes a pulse of 10 us",
    };
}
