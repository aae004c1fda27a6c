using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL4902: other pipes are open than planned.</summary>
public sealed class PipesDiffer() : ObservedRule(new(
    "RL4902", Severity.Error, "Open pipes differ from the plan",
    "EN_RXADDR holds a 1 for each planned pipe (nRF24L01+ Product Specification 1.0, Table 28 p57-58)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Difference(Registers.EnRxAddr) is not { } one)
            yield break;
        yield return At(
            radio, one.Listed.Place,
            $"EN_RXADDR of `{radio.Node.Name}`: {FieldsInWords.Of(one)}",
            $"open exactly the planned pipes: a closed one hears nobody, an open one too many hears what is not for it and acknowledges it") with
        {
            Related = Planned(radio, Registers.EnRxAddr),
        };
    }
}
