using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>What takes charge from a battery, as mean currents in nanoamperes: from typical figures without loss to the most of the tables.</summary>
/// <param name="Name">As a message calls it.</param>
public sealed record Consumer(string Name, decimal Low, decimal High);

/// <summary>A node's mean current by consumers.</summary>
/// <param name="Missing">Keys that would state what is left out: the sum is then a lower bound.</param>
public sealed record EnergyPlan(ImmutableArray<Consumer> Consumers, ImmutableArray<string> Missing)
{
    public Current Least => new(Quantity.Whole(Consumers.Sum(consumer => consumer.Low)));

    public Current Most => new(Quantity.Whole(decimal.Ceiling(Consumers.Sum(consumer => consumer.High))));

    /// <summary>The largest first.</summary>
    public IEnumerable<Consumer> Largest => Consumers.OrderByDescending(consumer => consumer.High).ThenBy(consumer => consumer.Name, StringComparer.Ordinal);
}

/// <summary>
/// I = sum of I x share of time over the states: controller, radio, what always draws current, regulators, other loads; each as far as it
/// hangs on the battery.
/// </summary>
public sealed class NodeEnergy
{
    /// <summary>Attempts lost on a channel that nobody would call bad: the loss at the load up to which RL7001 keeps quiet, own assumption.</summary>
    private static readonly Share UsualLoss = new(100_000);

    private readonly NodePlan plan;
    private readonly Node node;
    private readonly BatteryPath? radio;
    private readonly BatteryPath? controller;
    private readonly List<Consumer> consumers = [];
    private readonly SortedSet<string> missing = new(StringComparer.Ordinal);

    private NodeEnergy(NodePlan plan)
    {
        (this.plan, node) = (plan, plan.Node);
        (radio, controller) = (BatteryPath.OfRadio(node), BatteryPath.OfController(node));
    }

    /// <summary>The mean current from the node's battery; null when nothing hangs on one.</summary>
    public static EnergyPlan? Of(NodePlan plan)
    {
        var energy = new NodeEnergy(plan);
        return energy.node.Battery is null || energy is { radio: null, controller: null } ? null : energy.Sum();
    }

    private EnergyPlan Sum()
    {
        var awake = ShareAwake();
        // A reading of the whole node asleep holds all that draws there.
        var whole = (node.Measured?.Sleep ?? node.Sleep?.Current)?.Value;
        if (whole is { } asleep)
            consumers.Add(new("the node asleep", asleep.Nanoamperes * (1 - awake), asleep.Nanoamperes * (1 - awake)));
        var always = whole is null ? 1 : awake;
        if (node.BoardSupply is null && !node.Writes("board-supply"))
            missing.Add("board-supply");
        if (controller is not null)
            AddController(awake, whole is null);
        if (radio is not null)
            AddRadio(awake, whole is null);
        AddParts(always);
        return new(ImmutableArray.CreateRange(consumers.Where(consumer => consumer.High > 0)), ImmutableArray.CreateRange(missing));
    }

    // 1 for a node that never sleeps.
    private decimal ShareAwake()
    {
        if (node.Sleep is not { } sleep)
            return 1;
        if ((sleep.Awake ?? node.Service?.Takes)?.Value is not { } lasts)
        {
            missing.Add("sleep.awake");
            return 0;
        }
        var share = WakesPerSecond() * lasts.Nanoseconds / 1_000_000_000m;
        if (sleep.Radio?.Value is RadioRest.Receiving)
            share += plan.Receives.Sum(hop => PerSecond(hop.Link) ?? 0) * (node.Service?.Takes ?? sleep.Awake)!.Value.Nanoseconds / 1_000_000_000m;
        return Math.Min(1, share);
    }

    private decimal WakesPerSecond() => node.Sleep!.Wakes?.Value is { Period: { Nanoseconds: > 0 } period } ? Often(1, period) : Sendings();

    private decimal Sendings()
    {
        var sum = 0m;
        foreach (var hop in plan.Sends)
        {
            if (PerSecond(hop.Link) is { } often)
                sum += often;
            else
                missing.Add("links.every");
        }
        return sum;
    }

    private static decimal? PerSecond(Link link) =>
        link.Every is { Value: { Nanoseconds: > 0 } period } ? Often(1, period)
        : link.Events is { Value: { Per.Nanoseconds: > 0 } events } ? Often(events.Count, events.Per)
        : null;

    // No program does anything more often than a million times a second.
    private static decimal Often(int times, Duration period) => Math.Min(1_000_000, times * 1_000_000_000m / period.Nanoseconds);

    private void AddController(decimal awake, bool countsAsleep)
    {
        if (ControllerCurrent.Awake(node) is { } running)
            Add("controller awake", running.Low.Nanoamperes * awake, running.High.Nanoamperes * awake, controller!);
        else if (awake > 0)
            missing.Add("board.currents");
        if (!countsAsleep || awake >= 1)
            return;
        if (ControllerCurrent.Asleep(node) is { } asleep)
            Add("controller asleep", asleep.Low.Nanoamperes * (1 - awake), asleep.High.Nanoamperes * (1 - awake), controller!);
        else
            missing.Add("sleep.current");
    }

    private void AddRadio(decimal awake, bool countsAsleep)
    {
        if (node.Part is not { } part || PeakCurrent.Receiving(node) is not { } receiving)
            return;
        var currents = part.Currents;
        var window = node.Sleep?.Listens?.Value.Window is { } lasts ? Math.Min(1, WakesPerSecond() * (lasts + OnAir.Settling).Nanoseconds / 1_000_000_000m) : 0;
        var listens = RadioHabits.IsAlways(plan) ? 1 : window;
        AddExact("radio listening", receiving.Nanoamperes * listens, radio!);
        if (listens < 1)
        {
            var idle = RadioHabits.IsCeHigh(node) ? currents.Standby2.Value : currents.Standby.Value;
            var rests = Rest(idle);
            AddExact("radio idle", (idle.Nanoamperes * Math.Max(0, awake - listens)) + (countsAsleep ? rests.Nanoamperes * (1 - Math.Max(awake, listens)) : 0), radio!);
        }
        if (node.Sleep is not null && IsDown)
            AddExact("radio starting", RadioCharge.Of(currents.Start.Value, part.Timing.Start.Value) * WakesPerSecond(), radio!);
        AddSending();
    }

    private bool IsDown => node.Sleep?.Radio?.Value is RadioRest.PowerDown || SwitchedSupply.Pin(node) is not null;

    // Where the radio rests while the controller sleeps, its front end with it.
    private Current Rest(Current idle)
    {
        if (node.Sleep is null)
            return idle;
        if (SwitchedSupply.Pin(node) is not null)
            return new(0);
        if (node.Sleep.Radio is null)
            missing.Add("sleep.radio");
        var chip = node.Sleep.Radio?.Value is RadioRest.Standby ? idle : node.Part!.Currents.PowerDown.Value;
        return node.FrontEnd is { } front ? chip + front.Sleep.Value : chip;
    }

    private void AddSending()
    {
        var (low, high) = (0m, 0m);
        foreach (var hop in plan.Sends)
        {
            if (PerSecond(hop.Link) is not { } often)
            {
                missing.Add("links.every");
                continue;
            }
            low += (RadioCharge.Delivery(plan, hop, node.Measured?.Lost?.Value ?? new(0)) ?? 0) * often;
            high += (RadioCharge.Delivery(plan, hop, node.Measured?.Lost?.Value ?? UsualLoss) ?? 0) * often;
        }
        Add("radio sending", low, high, radio!);
    }

    private void AddParts(decimal share)
    {
        foreach (var stage in Stages())
        {
            foreach (var load in stage.AlsoFeeds)
            {
                if (load.Average is { } average)
                    consumers.Add(new($"`{load.Name}`", average.Nanoamperes, average.Nanoamperes));
                else
                    missing.Add("supply.also-feeds");
            }
        }
        foreach (var regulator in BatteryRegulator.Of(node))
        {
            if (regulator.Quiescent is { } own)
                consumers.Add(new(regulator.Name, own.Low.Nanoamperes * share, own.High.Nanoamperes * share));
            else
                missing.Add("supply.quiescent");
        }
        if (controller is null)
            return;
        foreach (var (part, draws) in BoardParts.OnBoard(node.Board))
            consumers.Add(new($"`{part}`", draws.Nanoamperes * share, draws.Nanoamperes * share));
    }

    // Each stage once: the board's may serve both.
    private IEnumerable<Supply> Stages() => (radio?.Stages ?? ImmutableArray<Supply>.Empty).AddRange(controller?.Stages ?? ImmutableArray<Supply>.Empty).Distinct();

    private void AddExact(string name, decimal draws, BatteryPath path) => Add(name, draws, draws, path);

    private void Add(string name, decimal low, decimal high, BatteryPath path)
    {
        var (least, most) = Conversion.Factor(node, path);
        consumers.Add(new(name, low * least, high * most));
    }
}
