using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5102: a sender repeats its packet before the acknowledgement can have arrived.</summary>
public sealed class RetryBeforeAcknowledge() : Rule(new(
    "RL5102", Severity.Warning, "Retry delay shorter than the acknowledgement needs",
    "1 Mbps: 500 us above 5 bytes; 2 Mbps: 500 us above 15 bytes; 250 kbps: 500 us empty, 750 below 8 bytes, 1000 below 16, 1250 below 24, 1500 above "
    + "(nRF24L01+ Product Specification 1.0, 7.4.2, Table 18, Table 28 notes a and d); an error below 130 us + the acknowledgement's time on air (7.4.2)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var written in RetryDelays.Written(network))
        {
            if (written.Delay >= written.Least.Delay)
                continue;
            var cannotWork = written.Delay < written.Arrives;
            var bytes = written.ReturnedBytes == 0 ? "an empty acknowledgement" : FormattableString.Invariant($"an acknowledgement with {written.ReturnedBytes} byte{(written.ReturnedBytes == 1 ? "" : "s")}");
            yield return At(
                written.Plan.Node, written.Place,
                $"{written.Delay} is too short for {bytes} at {written.Rate.InManifest()}: {(cannotWork ? "it arrives after" : "the sum is")} {written.Arrives}, the data sheet asks for {written.Least.Delay}",
                $"use {written.Least.Delay}, or leave the delay out to have it planned",
                Offer($"Use {written.Least.Delay}", written.Place, $"{written.Least.Delay}")) with
            {
                Severity = cannotWork ? Severity.Error : Severity.Warning,
                Subject = written.Place,
            };
        }
    }
}
