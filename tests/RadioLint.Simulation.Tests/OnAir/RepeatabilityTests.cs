using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.OnAir;

/// <summary>Same calls and seed, same results; errors by chance; what the model promises about itself.</summary>
public class RepeatabilityTests
{
    private sealed class Likelihoods(double likelihood) : IBitErrors
    {
        public double Likelihood(int receiver, int channel, AirRate rate, double powerDbm, long at) => likelihood;
    }

    /// <summary>Common practice, no source: a run repeats with its seed, and another seed gives another run.</summary>
    [Fact]
    public void A_seed_repeats_its_run()
    {
        Assert.Equal(Run(7), Run(7));
        Assert.NotEqual(Run(7), Run(8));
    }

    /// <summary>The same air, set back, repeats its run to the last event.</summary>
    [Fact]
    public void Reset_starts_over()
    {
        var pair = new Pair(seed: 7);
        var first = Run(pair);
        pair.Air.Reset();

        Assert.Equal(first, Run(pair));
    }

    /// <summary>Every bit turned over for certain is no packet; none is a packet.</summary>
    [Theory]
    [InlineData(1, 0)]
    [InlineData(0, 1)]
    public void Certain_errors(double likelihood, int received)
    {
        var pair = new Pair().Start().Load(8);
        pair.Air.BitErrors = new Likelihoods(likelihood);

        Assert.Equal(received, pair.Pulse().Receiver.RxFifo.Count);
    }

    /// <summary>
    /// 7.3.5 p30: one byte of checksum lets one in 256 spoiled packets pass, two bytes one in 65,536. With every fourth bit wrong, 20,000
    /// packets: 78 expected (standard deviation 9), and 0.3.
    /// </summary>
    [Theory]
    [InlineData(1, 40, 120)]
    [InlineData(2, 0, 4)]
    public void The_checksum_is_really_computed(int crc, int least, int most)
    {
        var pair = new Pair { Link = new() { EnAa = 0, Retries = 0, Crc = crc } }.Start();
        pair.Air.BitErrors = new Likelihoods(0.25);
        var passed = 0;
        for (var i = 0; i < 20_000; i++)
        {
            pair.Load(8).Pulse(400);
            passed += pair.Receiver.RxFifo.Count;
            pair.Receiver.Transfer(Command.FlushRx);
            Link.Write(pair.Sender, Register.Status, StatusFlags.All);
        }

        Assert.InRange(passed, least, most);
    }

    /// <summary>Time does not run backwards.</summary>
    [Fact]
    public void Time_does_not_go_back()
    {
        var pair = new Pair().Start();

        Assert.Throws<ArgumentOutOfRangeException>(() => pair.Air.Advance(pair.Air.Now - 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => pair.Sender.Ce(true, pair.Air.Now - 1));
    }

    /// <summary>Many chips: each pair on its own channel far from the others is served as if alone, whatever the order of events.</summary>
    [Fact]
    public void Many_pairs_at_once()
    {
        var air = new Air();
        var senders = new List<Chip>();
        var receivers = new List<Chip>();
        for (var i = 0; i < 13; i++)
        {
            senders.Add(air.Add(ChipVariants.Plus));
            receivers.Add(air.Add(ChipVariants.Plus));
            var link = new Link { Channel = 9 * i };
            link.Configure(senders[i], isReceiver: false);
            link.Configure(receivers[i], isReceiver: true);
        }
        air.AdvanceBy(2 * Ticks.PerMillisecond);
        receivers.ForEach(each => each.Ce(true, air.Now));
        air.AdvanceBy(Ticks.PerMillisecond);
        senders.ForEach(each => each.Transfer([Command.WTxPayload, .. Pair.Payload(8)]));
        senders.ForEach(each => each.Ce(true, air.Now));
        air.AdvanceBy(Ticks.Microseconds(469));
        Assert.All(senders, each => Assert.Equal(0, each.Status & StatusFlags.All));
        air.AdvanceBy(Ticks.Microseconds(1));

        Assert.All(senders, each => Assert.Equal(StatusFlags.TxDs, each.Status & StatusFlags.All));
        Assert.All(receivers, each => Assert.Equal(1, each.RxFifo.Count));
    }

    /// <summary>Common practice, no source: millions of packets are sent in property tests, so a transaction makes no garbage.</summary>
    [Fact]
    public void A_transaction_allocates_nothing()
    {
        var pair = new Pair().Start();
        byte[] load = [Command.WTxPayload, .. Pair.Payload(8)];
        pair.Sender.Ce(true, pair.Air.Now);
        var before = 0L;
        for (var i = 0; i < 2_000; i++)
        {
            // The first thousand grow what has to grow.
            if (i == 1_000)
                before = GC.GetAllocatedBytesForCurrentThread();
            pair.Sender.Transfer(load);
            pair.Air.AdvanceBy(Ticks.PerMillisecond);
            pair.Receiver.Transfer(Command.FlushRx);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(4_000, pair.Air.Packets);
    }

    private static string Run(ulong seed) => Run(new Pair(seed: seed));

    private static string Run(Pair pair)
    {
        pair.Start(new() { Retries = 15 });
        pair.Air.BitErrors = new Likelihoods(0.005);
        var log = new List<string>();
        for (var i = 0; i < 30; i++)
        {
            pair.Load(8).Pulse();
            log.Add($"{pair.Air.Events} {pair.Air.Packets} {pair.Sender.Read(Register.ObserveTx)} {pair.Receiver.RxFifo.Count}");
            pair.Receiver.Transfer(Command.FlushRx);
            Link.Write(pair.Sender, Register.Status, StatusFlags.All);
        }
        return string.Join('\n', log);
    }
}
