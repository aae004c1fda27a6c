using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1103: a line of the radio sits on a pin of the program's flash or of the PSRAM.</summary>
public sealed class FlashPinUsed() : Rule(new(
    "RL1103", Severity.Error, "Pins of the boot flash or PSRAM used",
    "the profile: ESP8266 and ESP32 GPIO6 to GPIO11, ESP32-C3 GPIO11 to GPIO17, ESP32-S3 GPIO26 to GPIO32 (data sheets' pin tables)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Pin is not { } pin || !(pin.IsTakenBy("flash") || pin.IsTakenBy("psram")))
                    continue;
                var isCertain = pin.State is PinState.Unusable;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place,
                    $"{pin.Both} of `{node.Label}`, which carries `{line.Signal}`, belongs to the {(pin.IsTakenBy("flash") ? "program's flash" : "PSRAM on modules that have it")}",
                    free is null ? (FormattableString)$"use a free pin" : $"use a free pin, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                { Severity = isCertain ? Severity.Error : Severity.Warning };
            }
        }
    }
}
