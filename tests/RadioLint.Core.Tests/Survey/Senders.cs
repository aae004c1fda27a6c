namespace RadioLint.Tests.Survey;

/// <summary>
/// Somebody on the air, in seconds and dBm. Levels are those at the antenna of a listener, in each MHz from 2400 on. Nothing here knows of counts.
/// </summary>
internal abstract class Sender
{
    public const int Megahertz = 126;

    /// <summary>In which of its states it is at a time; times never go back. Below zero: silent.</summary>
    public abstract int StateAt(double second);

    /// <summary>Each state with the share of all time that it lasts in the long run, and its levels in dBm.</summary>
    public IReadOnlyList<(double Share, double[] Levels)> States { get; protected init; } = [];

    /// <summary>What several paths between two places make of a level, by frequency: the same for all that one sends to the other, whatever its channel.</summary>
    protected static double[] Ripple(Random dice)
    {
        double phase = dice.NextDouble() * 6.28, period = 12 + (20 * dice.NextDouble()), depth = 2.5 * dice.NextDouble();
        return [.. Enumerable.Range(0, Megahertz).Select(at => depth * Math.Cos(phase + (6.28 * at / period)))];
    }

    /// <summary>Power in each MHz of a signal: what arrives, less its shape about a centre, with the ripple of its path.</summary>
    protected static double[] Levels(double[] ripple, double arriving, double centre, Func<double, double> shape) =>
        [.. ripple.Select((more, at) => arriving - shape(Math.Abs(at - centre)) + more)];

    protected static double Exponential(Random dice, double mean) => -mean * Math.Log(1 - dice.NextDouble());
}

/// <summary>On and off without memory, in sessions without memory: what is on now says all that there is to say of what comes.</summary>
internal sealed class BurstSender : Sender
{
    private readonly Random dice;
    private readonly double sessionOn, sessionOff, burst, gap, idleGap;
    private readonly double[] chances;
    private double sessionEnds, changes;
    private bool session;
    private int state = -1;

    /// <param name="burst">Mean length of a packet, with a gap of <paramref name="gap"/> within a session and of <paramref name="idleGap"/> without.</param>
    public BurstSender(Random dice, double sessionOn, double sessionOff, double burst, double gap, double idleGap, params (double Chance, double[] Levels)[] voices)
    {
        (this.dice, this.sessionOn, this.sessionOff, this.burst, this.gap, this.idleGap) = (dice, sessionOn, sessionOff, burst, gap, idleGap);
        chances = [.. voices.Select(each => each.Chance)];
        var busy = sessionOn / (sessionOn + sessionOff);
        var share = (busy * burst / (burst + gap)) + ((1 - busy) * burst / (burst + idleGap));
        States = [.. voices.Select(each => (share * each.Chance, each.Levels))];
        session = dice.NextDouble() < busy;
        sessionEnds = Exponential(dice, session ? sessionOn : sessionOff);
        Begin(0);
    }

    public override int StateAt(double second)
    {
        while (true)
        {
            if (sessionEnds <= second && sessionEnds <= changes)
            {
                var at = sessionEnds;
                session = !session;
                sessionEnds += Exponential(dice, session ? sessionOn : sessionOff);
                Begin(at);
            }
            else if (changes <= second)
            {
                state = state >= 0 ? -1 : Voice();
                changes += Exponential(dice, state >= 0 ? burst : Gap);
            }
            else
            {
                return state;
            }
        }
    }

    private double Gap => session ? gap : idleGap;

    // As it is found at any moment.
    private void Begin(double at)
    {
        state = dice.NextDouble() < burst / (burst + Gap) ? Voice() : -1;
        changes = at + Exponential(dice, state >= 0 ? burst : Gap);
    }

    private int Voice()
    {
        var drawn = dice.NextDouble();
        for (var i = 0; i < chances.Length - 1; i++)
        {
            if ((drawn -= chances[i]) < 0)
                return i;
        }
        return chances.Length - 1;
    }

    /// <summary>A Wi-Fi cell: an access point and a client, 17 MHz of carriers and the skirts beside them.</summary>
    public static BurstSender Wifi(Random dice, double centre, double accessPoint, double client, double duty, double seconds)
    {
        double Shape(double off) => 12.3 + (off < 8.5 ? 0 : off < 10.5 ? 12 : off < 20 ? 26 + ((off - 10.5) * 0.9) : 48);
        var packet = 0.0004 + (0.0012 * dice.NextDouble());
        return new(dice, seconds, seconds * (1 + (3 * dice.NextDouble())), packet, packet * (1 - duty) / duty, 0.1, (0.6, Levels(Ripple(dice), accessPoint, centre, Shape)), (0.4, Levels(Ripple(dice), client, centre, Shape)));
    }

    /// <summary>A Wi-Fi cell of 40 MHz: 36.5 MHz of carriers about the middle of its pair, and what it sends to all on the first half alone.</summary>
    public static BurstSender WifiPair(Random dice, double centre, double first, double accessPoint, double client, double duty, double alone)
    {
        double Shape(double off) => 15.6 + (off < 18.5 ? 0 : off < 20.5 ? 12 : off < 40 ? 26 + ((off - 20.5) * 0.5) : 48);
        double Narrow(double off) => 12.3 + (off < 8.5 ? 0 : off < 10.5 ? 12 : off < 20 ? 26 + ((off - 10.5) * 0.9) : 48);
        var packet = 0.0004 + (0.0012 * dice.NextDouble());
        var path = Ripple(dice);
        return new(
            dice, 2, 1 + (5 * dice.NextDouble()), packet, packet * (1 - duty) / duty, 0.1,
            (alone, Levels(path, accessPoint, first, Narrow)), (0.6 * (1 - alone), Levels(path, accessPoint, centre, Shape)), (0.4 * (1 - alone), Levels(Ripple(dice), client, centre, Shape)));
    }

    /// <summary>Two MHz wide, packets of up to 4 ms.</summary>
    public static BurstSender Ieee802154(Random dice, double centre, double arriving, double duty) => new(
        dice, 3, 6, 0.003, 0.003 * (1 - duty) / duty, 0.5, (1, Levels(Ripple(dice), arriving, centre, off => off < 1.5 ? 3 : off < 2.5 ? 12 : off < 3.5 ? 25 : 50)));

    /// <summary>One MHz wide on a channel of its own.</summary>
    public static BurstSender Narrow(Random dice, double centre, double arriving, double duty) => new(
        dice, 2, 5, 0.0005, 0.0005 * (1 - duty) / duty, 0.3, (1, Levels(Ripple(dice), arriving, centre, off => off < 0.5 ? 0 : off < 1.5 ? 22 : off < 2.5 ? 40 : 60)));
}

/// <summary>Another channel for each slot, any of a set.</summary>
internal sealed class Hopper : Sender
{
    private readonly Random dice;
    private readonly double slot, talks, on, off;
    private double slotEnds, sessionEnds;
    private bool session;
    private int state;

    public Hopper(Random dice, IReadOnlyList<int> channels, double wide, double arriving, double slot, double talks, double on, double off)
    {
        (this.dice, this.slot, this.talks, this.on, this.off) = (dice, slot, talks, on, off);
        double Shape(double away) => away < wide / 2 ? (wide > 1.5 ? 2 : 0) : away < (wide / 2) + 1 ? (wide > 1.5 ? 12 : 22) : away < (wide / 2) + 2 ? 35 : 60;
        var path = Ripple(dice);
        States = [.. channels.Select(each => (on / (on + off) * talks / channels.Count, Levels(path, arriving, each, Shape)))];
        session = dice.NextDouble() < on / (on + off);
        sessionEnds = Exponential(dice, session ? on : off);
    }

    public override int StateAt(double second)
    {
        for (; sessionEnds <= second; session = !session, sessionEnds += Exponential(dice, session ? on : off))
        {
        }
        if (slotEnds <= second)
        {
            slotEnds += slot * (1 + Math.Floor((second - slotEnds) / slot));
            state = dice.NextDouble() < talks ? dice.Next(States.Count) : -1;
        }
        return session ? state : -1;
    }
}

/// <summary>Announces itself on three channels one after the other, at intervals with some jitter.</summary>
internal sealed class Announcer : Sender
{
    private const double Packet = 0.0004, Step = 0.0005, Jitter = 0.01;

    private readonly Random dice;
    private readonly double interval;
    private double begins;

    public Announcer(Random dice, IReadOnlyList<int> channels, double arriving, double interval)
    {
        (this.dice, this.interval) = (dice, interval);
        var path = Ripple(dice);
        States = [.. channels.Select(each => (Packet / (interval + (Jitter / 2)), Levels(path, arriving, each, away => away < 1 ? 2 : away < 2 ? 12 : away < 3 ? 35 : 60)))];
        begins = dice.NextDouble() * interval;
    }

    public override int StateAt(double second)
    {
        while (begins + (3 * Step) < second)
            begins += interval + (Jitter * dice.NextDouble());
        var which = (int)Math.Floor((second - begins) / Step);
        return which is >= 0 and < 3 && second - begins - (which * Step) < Packet ? which : -1;
    }
}

/// <summary>An oven: on for part of each cycle of the mains, its carrier sliding through some MHz meanwhile, while somebody cooks.</summary>
internal sealed class Oven : Sender
{
    private readonly Random dice;
    private readonly double cycle, part, on, off;
    private double sessionEnds;
    private bool session;

    public Oven(Random dice, double arriving, double hertz, double on, double off)
    {
        (this.dice, cycle, part, this.on, this.off) = (dice, 1 / hertz, 0.45, on, off);
        int from = dice.Next(38, 48), steps = dice.Next(8, 20);
        var path = Ripple(dice);
        States = [.. Enumerable.Range(from, steps).Select(each => (on / (on + off) * part / steps, Levels(path, arriving, each, away => away < 1.5 ? 4 : away < 4 ? 20 : 45)))];
        session = dice.NextDouble() < on / (on + off);
        sessionEnds = Exponential(dice, session ? on : off);
    }

    public override int StateAt(double second)
    {
        for (; sessionEnds <= second; session = !session, sessionEnds += Exponential(dice, session ? on : off))
        {
        }
        var phase = (second / cycle) - Math.Floor(second / cycle);
        return session && phase < part ? (int)(phase / part * States.Count) : -1;
    }
}
