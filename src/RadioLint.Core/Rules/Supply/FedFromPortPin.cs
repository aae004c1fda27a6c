using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2020: the radio draws its supply from a port pin of the controller.</summary>
public sealed class FedFromPortPin() : Rule(new(
    "RL2020", Severity.Warning, "Radio supplied from a port pin",
    "error above the pin's absolute maximum, 40 mA on an ATmega328P (ATmega328/P data sheet 42735A, table 32-1); warning below it: 11.3 mA to 13.5 mA " +
    "(nRF24L01+ Product Specification 1.0, Table 4) sink a pin's voltage",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (SwitchedSupply.Pin(node) is not { } pin || PeakCurrent.OfRadio(node) is not { } radio)
                continue;
            var peak = node.Supply!.AlsoFeeds.Aggregate(radio, (sum, load) => sum + (load.Peak ?? new Current(0)));
            if (node.Board!.PinCurrent is not { } most)
                yield return Waits(node, "board.pin-current");
            else
                yield return peak > most.Value
                    ? Finding(node, $"{pin.Label} of `{node.Label}` feeds the radio: {peak} at its peak, {peak - most.Value} above the pin's absolute maximum of {most.Value}") with { Severity = Severity.Error }
                    : Finding(node, $"{pin.Label} of `{node.Label}` feeds the radio: {peak} at its peak, with an absolute maximum of {most.Value}; so loaded, the pin's voltage sinks by tenths of a volt");
        }
    }

    private Finding Finding(Node node, FormattableString message) => At(
        node, node.Supply!.Pin!.Place, message, $"feed the radio from a rail, or let the pin switch a P-channel transistor in the rail that feeds it");
}
