using RadioLint.Model;
using RadioLint.Rules.Range;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>Power steps, each with its reason.</summary>
internal static class PowerChoices
{
    public static IEnumerable<Choice> Of(Question question, Solution solution)
    {
        var ways = Ways(question.At(solution.Answer.Rate));
        for (var i = 0; i < question.Variables.Length; i++)
        {
            var variable = question.Variables[i];
            if (!variable.IsOpen || variable.Steps.IsEmpty)
                continue;
            var step = variable.Steps[solution.Answer.Steps[i]];
            // What stays at the default for want of a fact need not be written.
            if (variable.Missing is not null && step == variable.Stated.Value)
                continue;
            yield return new(variable.First, "power", $"{step}", Why(question, solution, variable, step, ways));
        }
    }

    public static IEnumerable<string> Kept(Question question) => question.Variables.Where(variable => variable is { IsOpen: true, Missing: not null })
        .Select(variable => variable.Steps.Contains(variable.Stated.Value)
            ? $"`power` of `{variable.First.Label}` stays at {variable.Stated.Value}: {variable.Missing} is not known"
            : $"`power` of `{variable.First.Label}` is chosen by the limit alone: {variable.Missing} is not known");

    private static string Why(Question question, Solution solution, PowerVariable variable, PowerLevel step, ILookup<object, Way> ways)
    {
        var network = question.Network;
        if (variable.Missing is not null)
            return $"{variable.Stated.Value} would radiate more than the {network.Band.Limit} EIRP of {Words.Region(network)}; {variable.Missing} is not known";
        var (from, to, worst) = Worst(question, solution, variable, step, ways);
        if (to is null)
            return "the least step";
        var isEnough = worst.Margin >= worst.Wanted;
        var reach = $"{worst.Budget.Received} at `{to.Label}`, {worst.Margin} above its sensitivity";
        if (!isEnough)
            return $"{reach}, {worst.Wanted - worst.Margin} less than the {worst.Wanted} wanted; {WhyNotMore(question, variable, step)}";
        var lower = variable.Steps.Where(one => one < step).OrderByDescending(one => one).Cast<PowerLevel?>().FirstOrDefault();
        if (lower is not { } less)
            return $"{reach}, {worst.Wanted} wanted; it is the least step";
        var (_, weaker, below) = Worst(question, solution, variable, less, ways);
        return weaker is not null && below.Margin < below.Wanted
            ? $"{reach}, {worst.Wanted} wanted; {less} would leave {below.Margin}{(weaker == to ? "" : $" at `{weaker.Label}`")}"
            : $"{reach}, {worst.Wanted} wanted; {less} would cost more beside interferers or at the other end of a link";
    }

    private static string WhyNotMore(Question question, PowerVariable variable, PowerLevel step) =>
        variable.First.Part!.PowerSteps.Any(one => one.Step > step)
            ? variable.Steps.Any(one => one > step) ? "more would cost more elsewhere" : $"more would radiate above the {question.Network.Band.Limit} EIRP of {Words.Region(question.Network)}"
            : $"{variable.First.Part.Name} has no stronger step";

    private sealed record Way(PathFacts Facts, Node From, Node To);

    // Every direction that can be judged, by the kind of node that sends in it.
    private static ILookup<object, Way> Ways(Situation at)
    {
        var ways = new List<Way>();
        foreach (var hop in at.Air.Hops.Where(hop => hop.SpeaksForGroup && !hop.Link.RidesInAcknowledgement).OrderBy(hop => hop.Label, Text.NaturalOrder.Instance))
        {
            if (hop.Sender.Air.ChosenRate is not { } rate || hop.Receiver.Air.ChosenRate != rate)
                continue;
            var judged = new JudgedHop(hop, rate, hop.IsAcknowledged && !hop.Link.IsBroadcast);
            if (at.PathOf(judged) is not { } facts)
                continue;
            ways.Add(new(facts, hop.Sender, hop.Receiver));
            if (judged.Returns)
                ways.Add(new(facts, hop.Receiver, hop.Sender));
        }
        return ways.ToLookup(way => way.From.Kind);
    }

    // The direction that lacks most among all that its nodes send in.
    private static (Node? From, Node? To, (Gain Margin, Gain Wanted, LinkBudget Budget) Worst) Worst(
        Question question, Solution solution, PowerVariable variable, PowerLevel step, ILookup<object, Way> ways)
    {
        var powers = question.At(solution.Answer.Rate).Powers(solution.Answer.Channel);
        (Node? From, Node? To, (Gain Margin, Gain Wanted, LinkBudget Budget) Worst) worst = default;
        foreach (var way in variable.Nodes.SelectMany(node => ways[node.Kind]))
        {
            if (way.Facts.Worst(powers.At(way.From, step), way.To) is { } here && (worst.To is null || here.Margin - here.Wanted < worst.Worst.Margin - worst.Worst.Wanted))
                worst = (way.From, way.To, here);
        }
        return worst;
    }
}
