using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Units;

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
            var step = Step(node, limit.Value);
            var slower = step ?? limit.Value;
            yield return At(
                node, written.Place, $"SCK of `{node.Label}` is {clock}, {clock - limit.Value} above the {limit.Value} of {node.Part.Name}",
                step is null ? (FormattableString)$"use {slower} or less" : $"use {slower}, the next that the controller can make", Offer($"Use {slower}", written.Place, $"{slower}"));
        }
    }

    // The controller's fastest step that the radio stands; null where the profile names none, or software makes the clock.
    private static Frequency? Step(Node node, Frequency limit)
    {
        if (node.Wiring.IsSoftware || node.Board?.Clock?.Value is not { } clock || node.Wiring.Unit is not { Dividers.IsEmpty: false } unit)
            return null;
        foreach (var divider in unit.Dividers.OrderBy(divider => divider))
        {
            if (clock.Hertz <= limit.Hertz * divider)
                return new(clock.Hertz / divider);
        }
        return null;
    }
}
