using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Text;

namespace RadioLint.Rules.Energy;

/// <summary>RL7102: a radio on cells listens all day.</summary>
public sealed class ListensOnBattery() : Rule(new(
    "RL7102", Severity.Error, "Battery node listens all the time",
    "the charge must carry the receiver, 12.6 mA to 13.5 mA (nRF24L01+ Product Specification 1.0, Table 4), for `runs-for`; without one no battery node listens all day, own threshold", "0.1")
{
    Silences = ["RL7101"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            var plan = network.Plan.Of(node);
            if (node.Battery is not { } battery || BatteryPath.OfRadio(node) is null || !RadioHabits.IsAlways(plan) || PeakCurrent.Receiving(node) is not { } receiving)
                continue;
            var life = BatteryLife.Of(battery, receiving, receiving);
            if (node.RunsFor is { } target && life?.High >= target.Value)
                continue;
            if (life is null && node.RunsFor is not null)
            {
                yield return Waits(node, "battery.capacity");
                continue;
            }
            var empty = life is { } known ? $", which alone empties its battery in {LongTime.InWords(known)}" : "";
            yield return At(
                node, PlaceOf(node),
                $"the radio of `{node.Label}` listens all the time: {receiving}{empty}{(node.RunsFor is { } wanted ? $", not {LongTime.InWords(wanted.Value)}" : "")}",
                $"let `{node.Label}` sleep and ask first: what is for it rides back `with: acknowledgement`, or is sent while it `listens` for a few milliseconds after it woke; or feed it from the mains");
        }
    }

    private static Place PlaceOf(Node node) =>
        node.Sleep is not { } sleep ? node.NamePlace
        : sleep.Radio is { Value: RadioRest.Receiving } radio ? radio.Place
        : sleep.Listens!.Place;
}
