using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Supply;

/// <summary>RL2019: a radio that is switched on at each waking gets less time than its power-on reset takes.</summary>
public sealed class AwakeBeforeReset() : Rule(new(
    "RL2019", Severity.Warning, "Firmware does not wait for the radio's power-on reset",
    "100 ms from 1.9 V to the end of the reset at most, and 1.5 ms until the crystal runs (nRF24L01+ Product Specification 1.0, Tables 14 and 16)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Sleep: { } sleep, Part: { } part } || SwitchedSupply.Pin(node) is not { } pin)
                continue;
            if (sleep.Awake is not { } awake)
            {
                yield return Waits(node, "sleep.awake");
                continue;
            }
            var needed = SwitchedSupply.UntilReady(part);
            if (awake.Value >= needed)
                continue;
            yield return At(
                node, awake.Place,
                $"`{node.Label}` switches its radio on with {pin.Label} and is awake for {awake.Value}, {needed - awake.Value} less than the {needed} that power-on reset and crystal may take",
                $"stay awake for at least {needed}, or leave the radio on its supply and use `radio: power-down`, which needs {part.Timing.Start.Value}");
        }
    }
}
