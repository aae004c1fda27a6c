using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2009: an adapter board made for 5 V is fed with 3.3 V.</summary>
public sealed class AdapterFedTooLow() : Rule(new(
    "RL2009", Severity.Error, "5 V adapter board fed with 3.3 V",
    "3.6 V and less leaves 2.5 V or less behind 1.1 V dropout (AMS1117 data sheet, electrical characteristics)", "0.1")
{
    Silences = ["RL2008"],
})
{
    private static readonly Voltage UpTo = new(3_600);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var stage in RegulatorInDropout.Stages(node))
            {
                if (stage.From?.Value is not SupplySource.Adapter || RadioRail.Input(node, stage) is not { } input || input > UpTo
                    || (stage.Dropout?.Value ?? RadioRail.RegulatorOf(stage)?.Dropout?.Value) is not { } dropout)
                {
                    continue;
                }
                yield return At(
                    node, stage.Input!.Place,
                    $"the adapter of `{node.Label}` gets {input}; its regulator loses {dropout}, so about {input - dropout} reach the radio",
                    $"feed the adapter 5 V, or plug the module in without it",
                    stage.Input.Value.Voltage is null ? [] : [Offer("Feed 5 V", stage.Input.Place, "5 V")]) with
                { Subject = (node, stage) };
            }
        }
    }
}
