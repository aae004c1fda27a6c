using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1016: IRQ is wired and nothing may pull it, or interrupts are asked for and no wire carries them.</summary>
public sealed class IrqWithoutUse() : Rule(new(
    "RL1016", Severity.Warning, "IRQ wired but masked, or awaited without a wire",
    "the mask bits of CONFIG: a masked source does not reach the pin (nRF24L01+ Product Specification 1.0, Table 28, MASK_RX_DR, MASK_TX_DS, MASK_MAX_RT)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Wiring.Irq is { Use.For: { IsEmpty: true } } line)
            {
                yield return At(
                    node, line.Place, $"`irq` of `{node.Label}` is wired, but `for` is empty: all three sources are masked and the line never moves",
                    $"name what it is for, such as `for: [received]`, or drop the wire");
            }
            else if (node is { Service.ByInterrupt: { Value: true } asked, Wiring.Irq: null or { Written: null } })
            {
                var free = node.Wiring.Irq is null ? FreePins.For(node, "irq").FirstOrDefault() : null;
                yield return At(
                    node, asked.Place, $"`{node.Label}` serves its radio by interrupt, but no wire carries `irq`",
                    free is null ? (FormattableString)$"wire `irq` to a pin that can interrupt, or state `by: polling`" : $"wire `irq` to a pin that can interrupt, for instance {free.Label}, or state `by: polling`",
                    free is not null && FurtherPins.For(node, ("irq", free.Label)) is { } edit ? [Offer($"Use {free.Label} for `irq`", [edit])] : []);
            }
        }
    }
}
