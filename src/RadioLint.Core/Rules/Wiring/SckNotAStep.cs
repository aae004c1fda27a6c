using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1207: the controller cannot make the SCK that is asked for.</summary>
public sealed class SckNotAStep() : Rule(new(
    "RL1207", Severity.Info, "SCK that the controller cannot make",
    "the clock by one of the SPI unit's dividers, 2 to 128 on AVR (ATmega328/P data sheet 42735A, table 23-5; profiles)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Spi.Clock: { } asked, Wiring: { IsSoftware: false, Unit: { Dividers.IsEmpty: false } unit }, Board.Clock.Value: var clock }
                || asked.Value.Hertz <= 0 || asked.Value > node.Part?.SpiFastest.Value)
            {
                continue;
            }
            var slowest = unit.Dividers.Max();
            var made = SckSteps.UpTo(node, asked.Value) ?? new Frequency(clock.Hertz / slowest);
            if (made == asked.Value)
                continue;
            yield return At(
                node, asked.Place, $"SCK of `{node.Label}` is to be {asked.Value}; {unit.Name} divides {clock} by {unit.Dividers.Min()} to {slowest}, so {made} comes out",
                $"use {made}, so that the manifest says what is on the wire", Offer($"Use {made}", asked.Place, $"{made}"));
        }
    }
}
