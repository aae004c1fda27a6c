using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1025: a pin hangs on a supply of another voltage than the rest of the controller's signals.</summary>
public sealed class PinOfOtherVoltage() : Rule(new(
    "RL1025", Severity.Error, "Pin belongs to another voltage domain",
    "the pin's `power-domain` in the profile; ESP32-S3 GPIO47 and GPIO48 run at 1.8 V on variants with 1.8 V memory (ESP32-S3 Series Datasheet 1.2, section 2)", "0.1")
{
    Silences = ["RL1004"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Spi?.LevelShifter?.Value is LevelShifter.Gate or LevelShifter.Transistor || SignalLevels.OfController(node) is not { } signals)
                continue;
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Pin is not { DomainVoltage: { } domain } pin || domain == signals)
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"{pin.Both} of `{node.Label}`, which carries `{line.Signal}`, is a pin of the {domain} domain; the other signals are {signals}",
                    free is null ? (FormattableString)$"use a pin of the {signals} domain" : $"use a pin of the {signals} domain, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                { Subject = (node, line.Signal) };
            }
        }
    }
}
