using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1104: MISO sits on a strap, and nothing keeps CSN high during reset.</summary>
public sealed class MisoOnStrap() : Rule(new(
    "RL1104", Severity.Warning, "MISO on a strap",
    "the profile's verdict for the strap; MISO is released only while CSN is high (nRF24L01+ Product Specification 1.0, 8.3)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { } board, Wiring: { Miso: { Pin: { } pin } line, Csn: var csn } } || board.StrapAt(pin) is not { Miso: { Verdict: not "ok" } effect } strap
                || csn?.Use?.PullUp is not null)
            {
                continue;
            }
            yield return At(
                node, line.Place, $"`miso` of `{node.Label}` is on {pin.Both}, a strap ({strap.Needs}): {effect.Text}",
                $"add a pull-up of 10 kohm to `csn` and state it, or use another pin for `miso` where the chip allows it");
        }
    }
}
