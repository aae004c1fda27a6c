using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1012: a line of the radio sits on the controller's RESET.</summary>
public sealed class ResetPinUsed() : Rule(new(
    "RL1012", Severity.Warning, "RESET pin used as a signal",
    "a fuse turns RESET into a pin, and then low-voltage serial programming no longer works (ATtiny25/45/85 data sheet 2586Q, section 20.2, fuse RSTDISBL)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Pin is not { } pin || !pin.IsTakenBy("reset") || IsStrapFor(node, pin, line.Signal))
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"{pin.Both} of `{node.Label}`, which carries `{line.Signal}`, is the controller's RESET: it is a signal only after a change of the chip's settings, which blocks later programming",
                    free is null ? (FormattableString)$"use another pin" : $"use another pin, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                { Subject = (node, line.Signal) };
            }
        }
    }

    // RL1101, RL1102 and RL1104 know what the level at reset does.
    private static bool IsStrapFor(Node node, BoardPin pin, string signal) => node.Board?.StrapAt(pin) is { } strap && signal switch
    {
        "csn" => strap.Csn.Verdict != "ok",
        "ce" => strap.Ce.Verdict != "ok",
        "irq" => strap.Irq.Verdict != "ok",
        "miso" => strap.Miso is { Verdict: not "ok" },
        _ => false,
    };
}
