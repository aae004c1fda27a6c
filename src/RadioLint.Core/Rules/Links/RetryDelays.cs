using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>A retry delay that the manifest writes, with what the acknowledgements of its sender need.</summary>
/// <param name="ReturnedBytes">The longest payload that rides back.</param>
/// <param name="Least">By the data sheet's table.</param>
/// <param name="Arrives">Settling and the acknowledgement's time on air: below it nothing can be heard.</param>
internal sealed record WrittenDelay(NodePlan Plan, Place Place, Duration Delay, DataRate Rate, RadioPart Part, int ReturnedBytes, LeastRetry Least, Duration Arrives);

/// <summary>Delays that nobody wrote are planned and legal; these are the others.</summary>
internal static class RetryDelays
{
    public static IEnumerable<WrittenDelay> Written(Network network)
    {
        foreach (var plan in network.Plan.Nodes)
        {
            if (plan is not { Retry: { Written: { } place, Delay: var delay }, Node: { Part: { } part, Air: { ChosenRate: { } rate, AddressWidth: { } width } }, CheckBytes: { } crc })
                continue;
            var bytes = plan.Sends.Where(hop => hop.IsAcknowledged).Select(RetryPlanner.ReturnedBytes).DefaultIfEmpty().Max();
            if (part.LeastRetryDelay(rate, bytes) is { } least)
                yield return new(plan, place, delay, rate, part, bytes, least, OnAir.AcknowledgeArrives(rate, width.Value, crc, bytes));
        }
    }
}
