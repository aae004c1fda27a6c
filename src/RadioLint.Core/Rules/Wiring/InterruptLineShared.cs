using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1024: the radio's IRQ and another interrupt are on pins that share one interrupt line of the chip.</summary>
public sealed class InterruptLineShared() : Rule(new(
    "RL1024", Severity.Error, "Two interrupts on one interrupt line",
    "one pin at a time for each line: EXTINT of SAMD21 (pin multiplexing in the maker's header files), EXTI of STM32 (value from memory); see the profiles", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { } board, Wiring.Irq: { Pin: { ExtiLine: { } shared } pin } line } || node.Service?.ByInterrupt?.Value == false)
                continue;
            foreach (var (other, what) in Others(node, board))
            {
                if (other.ExtiLine != shared || other.Port == pin.Port)
                    continue;
                var free = FreePins.For(node, "irq").FirstOrDefault();
                yield return At(
                    node, line.Place, $"`irq` on {pin.Both} and {what} on {other.Both} of `{node.Label}` are both on interrupt line {shared} of {board.Name}, which serves one pin at a time",
                    free is null ? (FormattableString)$"use a pin of another line" : $"use a pin of another line, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free));
            }
        }
    }

    /// <summary>Interrupts that are not the radio's. A pin that wakes the node interrupts; of other uses only those that say so.</summary>
    public static IEnumerable<(BoardPin Pin, string What)> Others(Node node, Board board)
    {
        if (node.Sleep?.Wakes?.Value is { Kind: WakeKind.ByPin, Pin: { } name } && board.Find(name) is { } wake)
            yield return (wake, "what wakes the node");
        foreach (var use in node.AlsoUses)
        {
            if (use.Use.IndexOf("interrupt", StringComparison.OrdinalIgnoreCase) >= 0 && board.Find(use.Name.Text) is { } pin)
                yield return (pin, $"`{use.Use}`");
        }
    }
}
