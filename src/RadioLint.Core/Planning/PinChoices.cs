using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Rules.Wiring;

namespace RadioLint.Planning;

/// <summary>Pins for CE, CSN and IRQ where a node leaves them out: free, no strap, able to do the job, nothing else of the board or the program on them.</summary>
public static class PinChoices
{
    private static readonly string[] ScarcestFirst = ["irq", "csn", "ce"];

    /// <summary>Choices for the nodes of a network, and a line for each signal that finds no pin.</summary>
    public static (ImmutableArray<Choice> Choices, ImmutableArray<string> Missing) Of(Network network)
    {
        var choices = ImmutableArray.CreateBuilder<Choice>();
        var missing = ImmutableArray.CreateBuilder<string>();
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { } board, IsExternal: false })
                continue;
            var wanted = Wanted(node).ToList();
            var given = new Dictionary<string, BoardPin>(StringComparer.Ordinal);
            foreach (var signal in ScarcestFirst.Where(wanted.Contains))
            {
                var others = wanted.Where(other => other != signal && !given.ContainsKey(other)).Select(other => Proposal(board, other)).ToList();
                if (Candidates(node, signal, [.. given.Values.Select(pin => pin.Port)]).OrderBy(pin => others.Contains(pin.Port) ? 1 : 0).FirstOrDefault() is { } pin)
                    given.Add(signal, pin);
                else
                    missing.Add($"`{node.Label}` has no pin on {board.Name} for `{signal}` that is free and without a caution: choose one by hand");
            }
            foreach (var signal in wanted.Where(given.ContainsKey))
                choices.Add(new(node, $"pins.{signal}", Spelling(board, given[signal]), Reason(node, signal, given[signal])));
        }
        return (choices.ToImmutable(), missing.ToImmutable());
    }

    private static IEnumerable<string> Wanted(Node node)
    {
        if (node.Wiring.Ce is null)
            yield return "ce";
        if (node.Wiring.Csn is null)
            yield return "csn";
        if (node.Wiring.Irq is null && node.Service?.ByInterrupt?.Value == true)
            yield return "irq";
    }

    private static IEnumerable<BoardPin> Candidates(Node node, string signal, HashSet<string> given)
    {
        var board = node.Board!;
        // An unmentioned select input of the SPI unit is best made an output by a line of the radio.
        var watched = signal == "irq" || node.SharesSpi.Any(other => other.Select?.Pin is { } select && board.Find(select.Value) == SpiLines.WatchedSelect(node))
            ? null : SpiLines.WatchedSelect(node);
        var busy = Busy(node);
        var counted = new HashSet<string>(node.AlsoUses.SelectMany(use => UnitPins.Of(board, use.Name.Text).Ports), StringComparer.Ordinal);
        var interrupts = InterruptLineShared.Others(node, board).Select(one => one.Pin.ExtiLine).OfType<string>().ToList();
        return FreePins.Unreserved(node, signal)
            .Where(pin => !given.Contains(pin.Port) && !busy.Contains(pin.Port)
                && (pin.DomainVoltage is null || pin.DomainVoltage == SignalLevels.OfController(node))
                && (signal != "irq" || pin.ExtiLine is not { } line || !interrupts.Contains(line))
                && (signal == "csn" ? Selected(node) is null || Selected(node) == pin : !IsSelectOfSystem(node, pin)))
            .OrderBy(pin => pin.Port == watched?.Port ? 0 : 1).ThenBy(pin => counted.Contains(pin.Port) ? 1 : 0);
    }

    private static bool IsPulsed(OtherUse use) => use.Use.IndexOf("PWM", StringComparison.OrdinalIgnoreCase) >= 0;

    // What the rules on wiring would complain of, besides what the pin is.
    private static HashSet<string> Busy(Node node)
    {
        var busy = new HashSet<string>(StringComparer.Ordinal);
        foreach (var use in node.AlsoUses)
        {
            // A timer that only counts leaves its pins alone.
            if (UnitPins.Of(node.Board!, use.Name.Text) is var (ports, isTimer) && (!isTimer || IsPulsed(use)))
                busy.UnionWith(ports);
        }
        var names = new[] { node.Sleep?.Wakes?.Value.Pin }.Concat(new[] { node.Supply, node.BoardSupply }.Select(supply => supply?.Pin?.Value));
        busy.UnionWith(names.OfType<string>().Select(node.Board!.Find).OfType<BoardPin>().Select(pin => pin.Port));
        return busy;
    }

    // On Linux the SPI driver switches these.
    private static bool IsSelectOfSystem(Node node, BoardPin pin) =>
        node is { Board.IsLinux: true, Wiring: { IsSoftware: false, Unit.Options: { } lines } } && lines.Ss.Contains(pin.Port, StringComparer.Ordinal);

    // The select that the program opens by its number.
    private static BoardPin? Selected(Node node) =>
        node is { Board: { IsLinux: true } board, Spi.Select.Value: var select, Wiring: { IsSoftware: false, Unit.Options.Ss: { IsDefaultOrEmpty: false } lines } } && select >= 0 && select < lines.Length
            ? board.Port(lines[select])
            : null;

    private static string? Proposal(Board board, string signal) => signal switch { "ce" => board.Wiring?.Ce, "csn" => board.Wiring?.Csn, _ => board.Wiring?.Irq };

    // The printed label, unless boards of the chip print it at two pins.
    private static string Spelling(Board board, BoardPin pin) =>
        board.Find(pin.Label) == pin && !board.Pins.Any(other => other != pin && other.OtherLabels.Contains(pin.Label, StringComparer.Ordinal)) ? pin.Label : pin.Port;

    private static string Reason(Node node, string signal, BoardPin pin)
    {
        var also = signal == "irq" ? ", and it interrupts on a falling edge"
            : pin.Port == SpiLines.WatchedSelect(node)?.Port ? ", and as an output it keeps the SPI master" : "";
        return pin.Port == Proposal(node.Board!, signal)
            ? $"the usual pin on {node.Board!.Name}, free here{also}"
            : $"the first pin of {node.Board!.Name} that is free and no strap{also}";
    }
}
