using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1014: IRQ is wired to a pin that cannot interrupt, or only by pin change.</summary>
public sealed class IrqPinCannotInterrupt() : Rule(new(
    "RL1014", Severity.Error, "IRQ on a pin that cannot interrupt",
    "the chip's table of interrupt pins (profiles); ATmega328P: INT0 and INT1 see edges, all others pin change only (data sheet 42735A, chapter 17)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { Irq: { } able } board, Wiring.Irq: { Pin: { } pin } line } || able.FallingEdge.Contains(pin.Port, StringComparer.Ordinal))
                continue;
            var isAsked = node.Service?.ByInterrupt?.Value == true || line.Use?.Trigger is not null;
            var changes = able.PinChange.Contains(pin.Port, StringComparer.Ordinal);
            if (changes && line.Use?.Trigger?.Value is Trigger.AnyChange)
                continue;
            var reads = pin.Can.HasFlag(PinAbilities.In);
            var free = FreePins.For(node, "irq").FirstOrDefault();
            var (message, otherwise) = Words(node, pin, reads, changes);
            yield return At(
                node, line.Place, message,
                free is null ? (FormattableString)$"{otherwise}" : $"use {free.Label}, which sees the falling edge{(reads ? ", or poll the line" : "")}",
                FreePins.Instead(network, node, line, free)) with
            { Severity = isAsked && !changes ? Severity.Error : reads ? Severity.Info : Severity.Warning };
        }
    }

    private static (FormattableString Message, string Otherwise) Words(Node node, BoardPin pin, bool reads, bool changes) => (reads, changes) switch
    {
        (false, _) => ($"{pin.Both} of `{node.Label}` has no digital input, so `irq` can neither interrupt nor be polled", "use a digital pin"),
        (_, true) => ($"{pin.Both} of `{node.Label}` interrupts on any change of its port, not on the falling edge of `irq` alone", "poll the line, or use software that tells the edges apart"),
        _ => ($"{pin.Both} of `{node.Label}` cannot interrupt, so `irq` can only be polled", "poll the line"),
    };
}
