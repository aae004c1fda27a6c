using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Supply;

/// <summary>RL2010: a regulator gets more than it stands.</summary>
public sealed class RegulatorOverfed() : Rule(new(
    "RL2010", Severity.Error, "Regulator input above its maximum",
    "input at most the part's maximum; RT9013 5.5 V (RT9013 data sheet DS9013-10, electrical characteristics), LP2985 16 V (LP2985 data sheet SLVS522O, front page)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var stage in RegulatorInDropout.Stages(node))
            {
                // Cells count fresh, a rail with its tolerance.
                if (RadioRail.Incoming(node, stage) is not { } input)
                    continue;
                var regulator = RadioRail.RegulatorOf(stage);
                if ((stage.InputMax?.Value ?? regulator?.InputMax?.Value) is not { } most)
                {
                    yield return Waits(node, "supply.input-max");
                }
                else if (input.High > most)
                {
                    yield return At(
                        node, stage.Input!.Place.FirstLine,
                        $"{stage.Part?.Value ?? regulator?.Name ?? "the regulator"} of `{node.Label}` gets {input.High}, {input.High - most} above its maximum of {most}",
                        $"use a regulator for at least {input.High}, or a lower input; a regulator that breaks through puts its input on the radio");
                }
            }
        }
    }
}
