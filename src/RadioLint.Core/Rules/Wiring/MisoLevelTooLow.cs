using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1303: what the radio sends as high is barely high, or not, for the controller.</summary>
public sealed class MisoLevelTooLow() : Rule(new(
    "RL1303", Severity.Info, "Radio output may not count as high",
    "VDD less 0.3 V (nRF24L01+ Product Specification 1.0, Table 13) against the controller's least high level: 0.6 x VCC on classic AVR (ATmega328/P data sheet 42735A, table 32-2)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { HighFrom: { } least, Name: var board }, Part: { } part } || SignalLevels.OfController(node) is not { } logic || RadioRail.Of(node) is not { } rail
                || logic <= rail.Nominal || node.Spi?.LevelShifter?.Value is LevelShifter.Gate)
            {
                continue;
            }
            var high = rail.Nominal - part.Signals.OutputDrop.Value;
            var needed = least.Value.At(logic);
            var margin = high - needed;
            yield return At(
                node, node.Wiring.Miso is { IsCustomary: false } miso ? miso.Place : node.BoardPlace,
                margin.Millivolts < 0
                    ? (FormattableString)$"the radio of `{node.Label}` promises {high} as high, {new Voltage(-margin.Millivolts)} less than the {needed} that {board} needs at {logic}"
                    : $"the radio of `{node.Label}` promises {high} as high; {board} needs {needed} at {logic}, a margin of {margin}",
                $"run the controller at a lower voltage, or put a buffer into MISO and IRQ") with
            { Severity = margin.Millivolts < 0 ? Severity.Warning : Severity.Info };
        }
    }
}
