using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1005: a line that the controller must drive sits on a pin without an output.</summary>
public sealed class PinCannotDrive() : Rule(new(
    "RL1005", Severity.Error, "Input-only pin drives a line of the radio",
    "pins without an output driver: GPIO34 to GPIO39 (ESP32 Series Datasheet 4.2, table 26 note 2), analogue-only pins of others (profiles)", "0.1")
{
    // RL1007 needs three pins that each could serve.
    Silences = ["RL1006", "RL1012", "RL1018"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Signal is "miso" or "irq" || line.Pin is not { } pin || pin.Can.HasFlag(PinAbilities.Out))
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"{pin.Both} of `{node.Label}` has no output driver and cannot drive `{line.Signal}`",
                    free is null ? (FormattableString)$"use a pin with an output" : $"use a pin with an output, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                { Subject = (node, line.Signal) };
            }
        }
    }
}
