using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1004: the pin exists, but the board or the chip has a use for it already.</summary>
public sealed class PinHasAnotherJob() : Rule(new(
    "RL1004", Severity.Warning, "Pin that the board uses already", "the board's profile: what each pin is wired to", "0.1"))
{
    // These have rules of their own, which know more.
    private static readonly string[] LeftToOthers = ["flash", "psram", "reset", "console", "strap", "jtag", "input-only"];

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Pin is not { } pin || (Job(pin) ?? SelectOfSystem(node, line.Signal, pin)) is not { } job || LeftToOthers.Any(pin.IsTakenBy) || IsUnable(node, pin, line.Signal))
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"{pin.Both} of `{node.Label}`, which carries `{line.Signal}`, has another job: {job}",
                    free is null ? (FormattableString)$"use a free pin" : $"use a free pin, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                {
                    Severity = pin.State is PinState.Unusable ? Severity.Error : Severity.Warning,
                    Subject = (node, line.Signal),
                };
            }
        }
    }

    // A pin without a driver is RL1005's, one that reads no levels RL1014's, one for slow signals RL1026's.
    private static bool IsUnable(Node node, BoardPin pin, string signal) => signal switch
    {
        "sck" or "mosi" or "miso" when pin.IsLowFrequencyOnly => true,
        "miso" => false,
        "irq" => !pin.Can.HasFlag(PinAbilities.In) && node.Board?.Irq is not null,
        _ => !pin.Can.HasFlag(PinAbilities.Out),
    };

    private static string? Job(BoardPin pin)
    {
        if (pin.State is PinState.Free)
            return null;
        var job = string.Join("; ", pin.Carries.Append(pin.Note).OfType<string>().Where(text => text.Length > 0).Select(Clause.Of));
        return job.Length > 0 ? job : string.Join(", ", pin.Functions.DefaultIfEmpty("not stated"));
    }

    // On Linux the SPI driver holds the select lines; the header calls them CE, as the radio calls another line. CSN may stay there.
    private static string? SelectOfSystem(Node node, string signal, BoardPin pin) =>
        signal is "ce" or "irq" && node is { Board.IsLinux: true, Wiring: { IsSoftware: false, Unit: { Options: { } lines } unit } }
            && lines.Ss.Contains(pin.Port, StringComparer.Ordinal) && node.Wiring.Csn?.Pin?.Port != pin.Port
            ? $"a chip select of {unit.Name}, which the system's SPI driver switches; the radio's CSN goes there"
            : null;
}
