using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1305: the radio's supply and the controller have no common ground.</summary>
public sealed class GroundsApart() : Rule(new(
    "RL1305", Severity.Error, "No common ground between radio and controller",
    "signals are voltages against VSS, the radio's ground (nRF24L01+ Product Specification 1.0, section 2.2 and Table 2)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            var apart = new[] { node.Supply, node.BoardSupply }.Select(supply => supply?.SeparateGround).FirstOrDefault(ground => ground?.Value == true);
            if (apart is null)
                continue;
            yield return At(
                node, apart.Place, $"the radio of `{node.Label}` and its controller have separate grounds: no signal between them has a level",
                $"add a wire from the radio's GND to the controller's GND and state `ground: common`", Offer("Add the ground wire and state it", apart.Place, "common"));
        }
    }
}
