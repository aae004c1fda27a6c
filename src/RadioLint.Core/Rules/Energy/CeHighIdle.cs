using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Rules.Wiring;

namespace RadioLint.Rules.Energy;

/// <summary>RL7106: CE stays high while a sender on cells has nothing to send.</summary>
public sealed class CeHighIdle() : Rule(new(
    "RL7106", Severity.Warning, "CE high while idle",
    "standby-I 26 uA with CE low against standby-II 320 uA with CE high (nRF24L01+ Product Specification 1.0, Table 4)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            // In power-down CE does not matter, and a receiver needs it high.
            if (node is not { Wiring.Ce: { } ce, Part.Currents: var currents } || !RadioHabits.IsCeHigh(node) || BatteryPath.OfRadio(node) is null
                || node.Sleep?.Radio?.Value is RadioRest.PowerDown || RadioHabits.IsAlways(network.Plan.Of(node)) || network.Plan.Of(node).Sends.IsEmpty)
            {
                continue;
            }
            yield return At(
                node, ce.Place,
                $"CE of `{node.Label}` is tied high: with nothing to send its radio draws {currents.Standby2.Value}, {currents.Standby2.Value - currents.Standby.Value} more than with CE low",
                $"give CE a pin and raise it for 10 us a packet, or power the radio down between packets",
                FreePins.For(node, "ce").FirstOrDefault() is { } free ? [Offer($"Use {free.Label}", ce.Place, free.Label)] : []);
        }
    }
}
