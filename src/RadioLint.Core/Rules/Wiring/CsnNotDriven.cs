using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1022: CSN is not driven by a pin of its own.</summary>
public sealed class CsnNotDriven() : Rule(new(
    "RL1022", Severity.Error, "CSN tied or derived from another line",
    "every command starts with CSN falling (nRF24L01+ Product Specification 1.0, section 8.3.1)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Wiring.Csn is not { Tie: not PinTie.None } line)
                continue;
            var free = FreePins.For(node, "csn").FirstOrDefault();
            yield return At(
                node, line.Place, Words(node, line.Tie),
                free is null ? (FormattableString)$"give CSN a pin of its own" : $"give CSN a pin of its own, for instance {free.Label}",
                FreePins.Instead(network, node, line, free)) with
            { Severity = line.Tie is PinTie.FromSck ? Severity.Warning : Severity.Error };
        }
    }

    private static FormattableString Words(Node node, PinTie tie) => tie switch
    {
        PinTie.High => $"CSN of `{node.Label}` is tied high: the radio is never selected and takes no command",
        PinTie.Low => $"CSN of `{node.Label}` is tied low: it never falls, so the radio takes no command",
        _ => $"CSN of `{node.Label}` is made from SCK: whether it falls once for each command depends on a filter and on the pauses of the program",
    };
}
