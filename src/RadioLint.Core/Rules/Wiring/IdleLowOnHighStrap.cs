using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1102: a line that may be low at reset sits on a pin that must be high.</summary>
public sealed class IdleLowOnHighStrap() : Rule(new(
    "RL1102", Severity.Error, "Line that may be low on a strap that must be high",
    "the profile's verdict for the strap; 10 kohm to ground against an internal 45 kohm leaves 0.60 V, below the 0.83 V that reads low (ESP32 Series Datasheet 4.2, table 15; computed)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Signal is not ("ce" or "irq") || line.Pin is not { } pin || node.Board?.StrapAt(pin) is not { } strap)
                    continue;
                var (text, severity) = Judge(strap, line.Signal);
                if (text is null)
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"`{line.Signal}` of `{node.Label}` may be low at reset on {pin.Both}, a strap ({strap.Needs}): {Clause.Of(text)}",
                    free is null ? (FormattableString)$"use a pin that is no strap" : $"use a pin that is no strap, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                { Severity = severity };
            }
        }
    }

    private static (string? Text, Severity Severity) Judge(Strap strap, string signal) => signal == "ce"
        ? strap.Ce.Verdict == "ok" ? (null, Severity.Silent) : (strap.Ce.Text, strap.Ce.Verdict == "error" ? Severity.Error : Severity.Warning)
        : strap.Ce.Verdict == "error" && strap.Irq.Verdict == "ok"
            ? ("the radio may still hold it low when only the controller resets", Severity.Warning)
            : (null, Severity.Silent);
}
