using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1301: signals of the controller are above what an input of the radio stands.</summary>
public sealed class SignalAboveMaximum() : Rule(new(
    "RL1301", Severity.Error, "Signal above the absolute limit", "5.25 V at any input (nRF24L01+ Product Specification 1.0, Table 2)", "0.1")
{
    // The same signals break the narrower limits too.
    Silences = ["RL1302", "RL1307"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Part is not { Signals.Absolute.Value.High: var limit } || Highest(node) is not { } signals || signals <= limit)
                continue;
            var place = node.Board is { IsLogicUsual: false, Logic: { } logic } ? logic.Place
                : node.BoardSupply?.Output?.Place ?? node.BoardSupply?.From?.Place ?? node.BoardPlace;
            yield return At(
                node, place, $"signals of `{node.Label}` reach {signals}, {signals - limit} above the {limit} that an input of {node.Part.Name} stands: it may be destroyed",
                $"put a level shifter on CE, CSN, SCK and MOSI and state `spi: {{ level-shifter: gate }}`, or run the controller at the radio's voltage");
        }
    }

    // Fresh cells count: the limit is absolute.
    private static Voltage? Highest(Node node) =>
        node.Spi?.LevelShifter?.Value is LevelShifter.Gate or LevelShifter.Transistor ? RadioRail.Of(node)?.High : RadioRail.AtController(node)?.High;
}
