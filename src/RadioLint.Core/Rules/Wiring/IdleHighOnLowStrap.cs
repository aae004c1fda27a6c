using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1101: a line that idles high sits on a pin that must be low at reset.</summary>
public sealed class IdleHighOnLowStrap() : Rule(new(
    "RL1101", Severity.Error, "Line that idles high on a strap that must be low",
    "the profile's verdict for the strap; 10 kohm against an internal 45 kohm leaves 2.70 V, above the 2.48 V that reads high (ESP32 Series Datasheet 4.2, table 15; computed)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Signal is not ("csn" or "irq") || line.Pin is not { } pin || node.Board?.StrapAt(pin) is not { } strap)
                    continue;
                var effect = line.Signal == "csn" ? strap.Csn : strap.Irq;
                if (effect.Verdict == "ok")
                    continue;
                // A bare CSN floats with the strap; only a resistor pulls it the wrong way for certain.
                var isCertain = effect.Verdict == "error" && (line.Signal == "irq" || line.Use?.PullUp is not null);
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"`{line.Signal}` of `{node.Label}` idles high on {pin.Both}, a strap ({strap.Needs}): {Clause.Of(effect.Text)}",
                    Help(free, effect.Verdict == "error" && !isCertain),
                    FreePins.Instead(network, node, line, free)) with
                { Severity = isCertain ? Severity.Error : Severity.Warning };
            }
        }
    }

    // Without a resistor the chip starts, so keeping it that way is second best.
    private static FormattableString Help(BoardPin? free, bool starts) => (free, starts) switch
    {
        (null, false) => $"use a pin that is no strap",
        (null, true) => $"use a pin that is no strap; second best, pull it down with 10 kohm at most and see that the module has no pull-up",
        (_, false) => $"use a pin that is no strap, for instance {free.Label}",
        (_, true) => $"use a pin that is no strap, for instance {free.Label}; second best, pull it down with 10 kohm at most and see that the module has no pull-up",
    };
}
