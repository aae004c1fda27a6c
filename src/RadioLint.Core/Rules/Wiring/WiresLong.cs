using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1210: the wires between controller and radio are long.</summary>
public sealed class WiresLong() : Rule(new(
    "RL1210", Severity.Warning, "Radio wires long",
    "15 cm info, 25 cm warning; one step milder up to 1 MHz of SCK (bench reports, names withheld: 10 cm worked, 30 cm and 50 cm failed; no standard)", "0.1"))
{
    private static readonly Length Unremarkable = new(150);
    private static readonly Length Doubtful = new(250);
    private static readonly Frequency Slow = new(1_000_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Wires is not { } wires)
            {
                // The slow clocks that nobody writes forgive much; a written one asks.
                if (node.Spi?.Clock?.Value > Slow)
                    yield return Waits(node, "wires");
                continue;
            }
            var isSlow = node.Wiring.Clock is { } clock && clock <= Slow;
            var limit = wires.Value > Doubtful ? Doubtful : Unremarkable;
            if (wires.Value <= (isSlow ? Doubtful : Unremarkable))
                continue;
            yield return At(
                node, wires.Place, $"the radio of `{node.Label}` hangs on wires of {wires.Value}, {new Length(wires.Value.Millimetres - limit.Millimetres)} more than {limit}{(limit == Doubtful ? ", beyond which reports tell of failures" : "")}",
                isSlow ? (FormattableString)$"shorten the wires, or run a ground wire beside each signal" : $"shorten the wires, or slow SCK to 1 MHz and run a ground wire beside each signal") with
            { Severity = limit == Doubtful && !isSlow ? Severity.Warning : Severity.Info };
        }
    }
}
