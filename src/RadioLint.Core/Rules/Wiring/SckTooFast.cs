using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1205: SCK is faster than the radio's SPI.</summary>
public sealed class SckTooFast() : Rule(new(
    "RL1205", Severity.Error, "SCK above the chip's limit", "10 MHz at 5 pF (nRF24L01+ Product Specification 1.0, Table 22); 8 MHz for nRF24L01 (2.0, 8.2)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Wiring.Clock: { } clock, Part.SpiFastest: var limit, Spi.Clock: { } written } || clock <= limit.Value)
                continue;
            // The load may ask for less than the part.
            var slower = SckLimit.Of(node)?.Inside(node) is { } inside && inside < limit.Value ? inside : SckSteps.UpTo(node, limit.Value) ?? limit.Value;
            var isStep = SckSteps.UpTo(node, slower) == slower;
            yield return At(
                node, written.Place, $"SCK of `{node.Label}` is {clock}, {clock - limit.Value} above the {limit.Value} of {node.Part.Name}",
                isStep ? (FormattableString)$"use {slower}, the next that the controller can make" : $"use {slower} or less", Offer($"Use {slower}", written.Place, $"{slower}"));
        }
    }
}
