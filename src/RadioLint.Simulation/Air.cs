namespace RadioLint.Simulation;

/// <summary>
/// Joins chips: carries their packets, lets time pass and tells what disturbs what. No clock and no input or output; the same calls with
/// the same seed give the same results. Neighbours on other channels disturb by the tables of carrier to interferer alone.
/// </summary>
public sealed class Air
{
    // The longest packet that a receiver may believe in: 329 bits at 250 kbps. What has ended before is forgotten.
    private const long Memory = 329 * 64;

    private readonly ulong seed;
    private readonly EventTree schedule = new();
    private readonly List<Chip> chips = [];
    private readonly List<Transmission> recent = [];
    private readonly Stack<Transmission> spare = [];
    private readonly List<Interferer> interferers = [];
    private readonly Reach reach;
    private NoiseSource noise;

    public Air(ulong seed = 0)
    {
        this.seed = seed;
        noise = new(seed);
        reach = new(this);
    }

    /// <summary>In ticks.</summary>
    public long Now { get; private set; }

    /// <summary>How many moments of chips have passed.</summary>
    public long Events { get; private set; }

    /// <summary>Packets sent, acknowledgements included.</summary>
    public long Packets { get; private set; }

    public IReadOnlyList<Chip> Chips => chips;

    /// <summary>What is on air or was a moment ago, oldest first.</summary>
    public IReadOnlyList<Transmission> Recent => recent;

    public IReadOnlyList<Interferer> Interferers => interferers;

    public IPropagation Propagation { get; set; } = new PairLoss();

    /// <summary>Null for none.</summary>
    public IBitErrors? BitErrors { get; set; }

    /// <summary>Called when a packet starts; for records of what was sent.</summary>
    public Action<Transmission>? Sent { get; set; }

    /// <summary>When something happens next by itself; <see cref="Ticks.Never"/> when nothing will.</summary>
    public long NextEvent => chips.Count == 0 ? Ticks.Never : schedule.FirstTime;

    internal Reach Reach => reach;

    // The same lists without an interface, which would cost an object at every look.
    internal List<Transmission> Past => recent;

    internal List<Interferer> Foreign => interferers;

    public Chip Add(ChipVariant variant)
    {
        var chip = new Chip(this, chips.Count, variant);
        chips.Add(chip);
        schedule.Resize(chips.Count);
        foreach (var each in chips)
            schedule.Set(each.Number, each.NextMoment);
        return chip;
    }

    public void Add(Interferer interferer) => interferers.Add(interferer);

    /// <summary>Back to the first moment with all chips as after their reset, for the next network in the same objects.</summary>
    public void Reset()
    {
        Now = 0;
        Events = 0;
        Packets = 0;
        noise = new(seed);
        interferers.Clear();
        foreach (var past in recent)
            spare.Push(past);
        recent.Clear();
        schedule.Clear();
        foreach (var chip in chips)
            chip.Renew();
    }

    /// <summary>Lets time pass to a moment, with all that falls due up to and at it.</summary>
    public void Advance(long to)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(to, Now);
        if (chips.Count == 0)
        {
            Now = to;
            return;
        }
        while (schedule.FirstTime <= to)
        {
            var chip = chips[schedule.First];
            Now = schedule.FirstTime;
            Events++;
            chip.OnMoment();
            schedule.Set(chip.Number, chip.NextMoment);
        }
        Now = to;
    }

    public void AdvanceBy(long ticks) => Advance(Now + ticks);

    internal void Reschedule(Chip chip) => schedule.Set(chip.Number, chip.NextMoment);

    internal ref NoiseSource Noise => ref noise;

    /// <summary>A packet whose frame the caller fills before <see cref="Launch"/>.</summary>
    internal Transmission Prepare(Chip sender)
    {
        Forget();
        var packet = spare.Count > 0 ? spare.Pop() : new Transmission();
        packet.Sender = sender.Number;
        packet.Channel = sender.Settings.Channel;
        packet.Rate = sender.Settings.Rate;
        packet.PowerDbm = sender.Settings.PowerDbm;
        packet.Start = Now;
        packet.End = Ticks.Never;
        packet.IsCarrier = false;
        packet.IsAck = false;
        return packet;
    }

    internal void Launch(Transmission packet)
    {
        Packets++;
        recent.Add(packet);
        Sent?.Invoke(packet);
        foreach (var chip in chips)
        {
            if (chip.Number != packet.Sender && chip.Ear.Hear(packet))
                Reschedule(chip);
        }
    }

    private void Forget()
    {
        var kept = 0;
        for (var i = 0; i < recent.Count; i++)
        {
            var packet = recent[i];
            if (packet.End >= Now - Memory)
                recent[kept++] = packet;
            else
                spare.Push(packet);
        }
        recent.RemoveRange(kept, recent.Count - kept);
    }
}
