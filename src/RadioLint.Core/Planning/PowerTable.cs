using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Radio;
using RadioLint.Rules.Range;
using RadioLint.Rules.Spectrum;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>What power steps cost at one rate and on one channel: each by itself, and pairs at the ends of a link.</summary>
internal sealed class PowerTable
{
    private readonly Network network;
    private readonly AtRate at;
    private readonly ImmutableArray<PowerVariable> variables;
    private readonly Dictionary<object, int> variableOf = [];
    private readonly Dictionary<(Node Node, PowerLevel Step), Node> variants = [];

    // What arrives, by variable and step, at each receiver.
    private readonly List<(int Variable, int Step, Node At, PowerLevel Received)> arrivals = [];

    private PowerTable(Network network, AtRate at, ImmutableArray<PowerVariable> variables)
    {
        (this.network, this.at, this.variables) = (network, at, variables);
        Alone = [.. variables.Select(variable => new long[variable.Steps.Length])];
    }

    /// <summary>By variable and step.</summary>
    public long[][] Alone { get; }

    /// <summary>By two variables, the lower first, and their steps.</summary>
    public Dictionary<(int One, int Other), long[,]> Pairs { get; } = [];

    /// <param name="factsOf">What is known of a hop's path.</param>
    public static PowerTable Of(Network network, AtRate at, ImmutableArray<PowerVariable> variables, Func<JudgedHop, PathFacts?> factsOf)
    {
        var table = new PowerTable(network, at, variables);
        for (var i = 0; i < variables.Length; i++)
        {
            foreach (var node in variables[i].Nodes)
                table.variableOf[node.Kind] = i;
        }
        for (var i = 0; i < variables.Length; i++)
            table.PriceAlone(i);
        foreach (var hop in at.Hops)
        {
            if (hop.SpeaksForGroup && !hop.Link.RidesInAcknowledgement && hop.Sender.Air.ChosenRate is { } rate && hop.Receiver.Air.ChosenRate == rate)
                table.PriceHop(new(hop, rate, hop.IsAcknowledged && !hop.Link.IsBroadcast), factsOf);
        }
        return table;
    }

    /// <summary>The same where something disturbs receivers.</summary>
    /// <param name="floors">The level that a signal must reach beside it; null where nothing is near.</param>
    public PowerTable Beside(Func<Node, PowerLevel?> floors)
    {
        var table = new PowerTable(network, at, variables);
        for (var i = 0; i < Alone.Length; i++)
            Alone[i].CopyTo(table.Alone[i], 0);
        foreach (var pair in Pairs)
            table.Pairs.Add(pair.Key, pair.Value);
        foreach (var same in arrivals.GroupBy(one => one.At))
        {
            if (floors(same.Key) is not { } floor)
                continue;
            foreach (var (variable, step, _, received) in same)
                table.Alone[variable][step] += PlanCost.Disturbed(received - floor);
        }
        return table;
    }

    public long Cost(int[] steps)
    {
        var sum = 0L;
        for (var i = 0; i < steps.Length; i++)
            sum += Alone[i][steps[i]];
        foreach (var pair in Pairs)
            sum += pair.Value[steps[pair.Key.One], steps[pair.Key.Other]];
        return sum;
    }

    private void PriceAlone(int variable)
    {
        var steps = variables[variable].Steps;
        for (var k = 0; k < steps.Length; k++)
        {
            // Where nobody knows how far it must reach, as far as it may.
            var cost = variables[variable].Missing is null ? PlanCost.Power(steps[k], variables[variable].First.Part!.PowerSteps.Min(step => step.Step)) : PlanCost.Power(steps[steps.Length - 1], steps[k]);
            cost += variables[variable].Nodes.Max(node => Charge(node, steps[k]));
            if (variables[variable].Nodes.Any(node => IsAboveAverage(At(node, steps[k]), at.Plan.Of(at.Of(node)))))
                cost += PlanCost.AverageExceeded;
            Alone[variable][k] = cost;
        }
    }

    private long Charge(Node sender, PowerLevel step)
    {
        if (sender.Battery is null || PeakCurrent.Sending(At(sender, step)) is not { } draws)
            return 0;
        // Charge in nanocoulombs a second is nanoamperes.
        var sum = 0m;
        var plan = at.Plan.Of(at.Of(sender));
        foreach (var hop in plan.Sends)
        {
            if (Traffic.Rate(hop) is { } rate && Traffic.Packet(plan, hop) is { } packet)
                sum += RadioCharge.Of(draws, packet) * rate.Packets * 1_000_000_000m / rate.Per.Nanoseconds;
        }
        return PlanCost.Charge(Quantity.Whole(Math.Min(sum, 1_000_000_000_000m)));
    }

    // RL3103's question at another step.
    private bool IsAboveAverage(Node node, NodePlan plan) =>
        network.Band is { Average: { } limit, AverageOver: { } window } && Eirp.Of(node) is { } peak && peak.Level > limit && peak.Level <= network.Band.Limit
        && AverageTooMuch.OnTime(plan, window, at.Plan) is { Nanoseconds: > 0 } on && Eirp.Average(peak.Level, on, window) > limit;

    private void PriceHop(JudgedHop judged, Func<JudgedHop, PathFacts?> factsOf)
    {
        var (from, to) = (judged.Hop.Sender, judged.Hop.Receiver);
        if (!variableOf.TryGetValue(from.Kind, out var sends) || !variableOf.TryGetValue(to.Kind, out var answers))
            return;
        var facts = factsOf(judged);
        if (facts is not null)
        {
            PriceWay(facts, from, to, sends);
            if (judged.Returns)
                PriceWay(facts, to, from, answers);
        }
        if (judged.Returns)
            PriceReturn(judged, facts, sends, answers);
    }

    private void PriceWay(PathFacts facts, Node from, Node to, int variable)
    {
        var near = PathEstimate.Least(facts.Judged.Hop.Link.Distance!.Value.Low, facts.Judged.Hop.Link.Through);
        for (var k = 0; k < variables[variable].Steps.Length; k++)
        {
            var sender = At(from, variables[variable].Steps[k]);
            if (facts.Worst(sender, to) is { } worst)
            {
                Alone[variable][k] += PlanCost.Shortage(worst.Margin, worst.Wanted);
                arrivals.Add((variable, k, to, worst.Budget.Received));
            }
            if (LinkBudget.Of(sender, to, facts.Judged.Rate, near) is { } budget && LinkBudget.AtChip(to, budget.Received) > to.Part!.StrongestSignal.Value - new Gain(1_000))
                Alone[variable][k] += PlanCost.TooStrong;
        }
    }

    // RL7204's question at other steps.
    private void PriceReturn(JudgedHop judged, PathFacts? facts, int sends, int answers)
    {
        var (from, to) = (judged.Hop.Sender, judged.Hop.Receiver);
        var (one, other) = (Math.Min(sends, answers), Math.Max(sends, answers));
        var costs = new long[variables[one].Steps.Length, variables[other].Steps.Length];
        var any = false;
        for (var k = 0; k < variables[sends].Steps.Length; k++)
        {
            for (var l = 0; l < variables[answers].Steps.Length; l++)
            {
                if (!ReturnWeaker.IsWeaker(At(from, variables[sends].Steps[k]), At(to, variables[answers].Steps[l]), judged.Rate) || IsEnough(facts, At(from, variables[sends].Steps[k]), At(to, variables[answers].Steps[l])))
                    continue;
                any = true;
                if (sends == answers && k == l)
                    Alone[sends][k] += PlanCost.WeakerReturn;
                else
                    costs[sends <= answers ? k : l, sends <= answers ? l : k] += PlanCost.WeakerReturn;
            }
        }
        if (!any || sends == answers)
            return;
        if (!Pairs.TryGetValue((one, other), out var known))
        {
            Pairs.Add((one, other), costs);
            return;
        }
        for (var k = 0; k < known.GetLength(0); k++)
        {
            for (var l = 0; l < known.GetLength(1); l++)
                known[k, l] += costs[k, l];
        }
    }

    private bool IsEnough(PathFacts? facts, Node far, Node hub)
    {
        if (facts is null || (facts.Judged.Hop.Link.Setting ?? network.Setting) is null)
            return false;
        var (_, loss, wanted) = facts.Cases[0];
        return LinkBudget.Of(far, hub, facts.Judged.Rate, loss) is { } forth && LinkBudget.Of(hub, far, facts.Judged.Rate, loss) is { } back
            && (back.Margin >= wanted || forth.Margin < wanted);
    }

    /// <summary>A node as it would be at the rate, with a power step.</summary>
    public Node At(Node node, PowerLevel step)
    {
        var settled = at.Of(node);
        if (!variants.TryGetValue((settled, step), out var variant))
            variants.Add((settled, step), variant = settled with { Power = new Stated<PowerLevel>(step, settled.Power!.Place) });
        return variant;
    }
}
