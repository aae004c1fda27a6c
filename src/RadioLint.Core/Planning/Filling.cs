using System.Collections.Immutable;
using RadioLint.Model;

namespace RadioLint.Planning;

/// <summary>Chooses what a manifest leaves open. docs/fill-cost.md says by what.</summary>
public static class Filling
{
    /// <summary>A plan for a network: the same for the same network, whatever the order of its nodes.</summary>
    /// <param name="network">As read, with open or missing values.</param>
    /// <param name="measured">From a survey; null where there is none.</param>
    public static FillPlan Plan(Network network, ChannelCosts? measured)
    {
        var question = new Question(network, measured, Freedom.AsWritten);
        if (Feasibility.Conflict(question) is { IsEmpty: false } conflict)
            return new() { Conflict = conflict };
        // No rate that all parts have, or that both ends of a link agree on: other rules speak of it.
        if (PlanSearch.Solve(question) is not { } solution)
            return new() { Kept = ImmutableArray.Create("the rate stays open: the nodes have none in common") };
        var at = question.At(solution.Answer.Rate);
        return new()
        {
            Choices = ImmutableArray.CreateRange([
                .. AirChoices.Of(question, solution),
                .. PowerChoices.Of(question, solution),
                .. RetryChoices.Of(question, solution),
                .. LinkChoices.Of(question),
                .. FieldChoices.Of(network)]),
            Derived = ImmutableArray.CreateRange([.. DerivedValues.Addresses(network), .. DerivedValues.Delays(at.Repeats)]),
            Kept = ImmutableArray.CreateRange([.. AirChoices.Kept(question, solution), .. PowerChoices.Kept(question),
                .. Enumerable.Repeat(FormattableString.Invariant($"what written values cost is worked out up to {FixedValues.MostKinds} kinds of nodes"), network.DistinctNodes.Length > FixedValues.MostKinds ? 1 : 0)]),
            Cost = solution.Cost,
            Bound = solution.Bound,
            Fixed = FixedValues.Of(question, solution),
        };
    }
}
