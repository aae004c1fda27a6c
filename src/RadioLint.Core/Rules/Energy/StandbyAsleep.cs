using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Energy;

/// <summary>RL7105: the radio stays in standby while its battery node sleeps.</summary>
public sealed class StandbyAsleep() : Rule(new(
    "RL7105", Severity.Warning, "Radio left in standby while asleep",
    "power-down 0.9 uA against standby-I 26 uA (nRF24L01+ Product Specification 1.0, Table 4); 1.5 ms to wake, up to 4.5 ms by the crystal (Table 16)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Sleep: { } sleep, Part: { Currents: var currents, Timing: var timing } } || BatteryPath.OfRadio(node) is null || SwitchedSupply.Pin(node) is not null)
                continue;
            if (sleep.Radio is not { } rest)
            {
                if (!RadioHabits.IsAlways(network.Plan.Of(node)))
                    yield return Waits(node, "sleep.radio");
            }
            else if (rest.Value is RadioRest.Standby)
            {
                yield return At(
                    node, rest.Place,
                    $"the radio of `{node.Label}` draws {currents.Standby.Value} asleep, {currents.Standby.Value - currents.PowerDown.Value} more than in power-down",
                    $"power it down before sleep, and give it {timing.Start.Value} to {timing.StartSlowest.Value} after waking",
                    Offer("Use power-down", rest.Place, "power-down"));
            }
        }
    }
}
