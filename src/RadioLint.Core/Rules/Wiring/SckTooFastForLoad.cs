using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1206: SCK is faster than the radio's MISO follows with the load that hangs on it.</summary>
public sealed class SckTooFastForLoad() : Rule(new(
    "RL1206", Severity.Warning, "SCK above the limit for the line's load",
    "10 MHz at 5 pF, 8 MHz at 10 pF, 5 MHz at 50 pF, 4 MHz at 100 pF, the next higher load counts (nRF24L01+ Product Specification 1.0, Tables 22 to 27); info above 1 / (2 x (T_cd + set-up))", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            // Above the part's own limit it is RL1205's.
            if (node is not { Spi.Clock: { } clock, Part: { } part } || clock.Value > part.SpiFastest.Value || SckLimit.Of(node) is not { } limit)
                continue;
            var (load, row, setup) = limit;
            var last = part.SpiClock[part.SpiClock.Length - 1];
            if (clock.Value > row.UpTo)
            {
                yield return Slower(
                    node, clock.Place, limit,
                    $"SCK of `{node.Label}` is {clock.Value}; with about {load} on MISO the radio follows up to {row.UpTo}, {clock.Value - row.UpTo} less{(load > last.Load ? ", and its table ends there" : "")}");
            }
            else if (clock.Value > limit.Read)
            {
                // To 10 kHz: more would pretend that the load is known.
                var read = new Frequency(limit.Read.Hertz / 10_000 * 10_000);
                yield return Slower(
                    node, clock.Place, limit,
                    $"SCK of `{node.Label}` is {clock.Value}; {row.Delay} of the radio{(setup > default(Duration) ? $" and {setup} of the controller" : "")} fit half a period up to {read}") with
                { Severity = Severity.Info };
            }
            else if (node.Wires is null && clock.Value > last.UpTo)
            {
                yield return Waits(node, "wires");
            }
        }
    }

    private Finding Slower(Node node, Place place, SckLimit limit, FormattableString message)
    {
        var step = limit.Inside(node);
        return At(node, place, message, $"use {step} or less, or shorten the wires", Offer($"Use {step}", place, $"{step}"));
    }
}
