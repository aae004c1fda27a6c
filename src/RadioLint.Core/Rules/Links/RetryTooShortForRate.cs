using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5103: the reset value of the retry delay, 250 us, at 250 kbps.</summary>
public sealed class RetryTooShortForRate() : Rule(new(
    "RL5103", Severity.Error, "Retry delay that is too short even for an empty acknowledgement",
    "500 us at 250 kbps even without payload in the acknowledgement (nRF24L01+ Product Specification 1.0, Table 28 note a)", "0.1")
{
    Silences = ["RL5102"],
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var written in RetryDelays.Written(network))
        {
            if (written.Part.LeastRetryDelay(written.Rate, 0) is not { } empty || written.Delay >= empty.Delay)
                continue;
            yield return At(
                written.Plan.Node, written.Place,
                $"{written.Delay} never suffices at {written.Rate.InManifest()}: even an empty acknowledgement needs {empty.Delay}",
                $"use {written.Least.Delay}, or leave the delay out to have it planned",
                Offer($"Use {written.Least.Delay}", written.Place, $"{written.Least.Delay}")) with
            { Subject = written.Place };
        }
    }
}
