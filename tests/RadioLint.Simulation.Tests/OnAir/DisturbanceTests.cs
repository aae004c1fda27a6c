using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.OnAir;

/// <summary>What reaches a receiver, and what spoils it. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class DisturbanceTests
{
    private static readonly Link Plain = new() { EnAa = 0, Retries = 0 };

    /// <summary>Table 7 p16: typical sensitivity by rate; the path may lose so much and not a decibel more. 0 dBm sent (Table 28 p59).</summary>
    [Theory]
    [InlineData(AirRate.Kbps250, 94)]
    [InlineData(AirRate.Mbps1, 85)]
    [InlineData(AirRate.Mbps2, 82)]
    public void Sensitivity(AirRate rate, int loss)
    {
        Assert.Equal(1, ReceivedWithLoss(new() { Rate = rate }, loss));
        Assert.Equal(0, ReceivedWithLoss(new() { Rate = rate }, loss + 0.1));
        // 18 dB less is sent at the lowest setting.
        Assert.Equal(0, ReceivedWithLoss(new() { Rate = rate, RfPower = 0 }, loss - 17.9));
        Assert.Equal(1, ReceivedWithLoss(new() { Rate = rate, RfPower = 0 }, loss - 18));
    }

    /// <summary>Two at once, far apart in power: the stronger is taken when it leads by the figure of Table 9 p17; closer, both are lost.</summary>
    [Theory]
    [InlineData(AirRate.Kbps250, 7)]
    [InlineData(AirRate.Mbps1, 12)]
    [InlineData(AirRate.Mbps2, 11)]
    public void Capture(AirRate rate, int lead)
    {
        Assert.Equal([1], Collide(rate, 0, lead));
        Assert.Equal([], Collide(rate, 0, lead - 0.1));
        Assert.Equal([], Collide(rate, 0, 0));
        Assert.Equal([2], Collide(rate, 0, -lead));
    }

    /// <summary>The stronger packet wins though the weaker began first, as long as no address was complete.</summary>
    [Fact]
    public void The_stronger_may_come_second() => Assert.Equal([2], Collide(AirRate.Mbps1, 20, -12));

    /// <summary>Once an address is complete the receiver stays with its packet, and the later one spoils it.</summary>
    [Fact]
    public void A_stronger_packet_spoils_what_is_coming_in() => Assert.Equal([], Collide(AirRate.Mbps1, 60, -12));

    /// <summary>Table 9 p17: neighbours by distance; they spoil a packet that is weaker by more than the figure.</summary>
    [Theory]
    [InlineData(AirRate.Mbps1, 1, 8)]
    [InlineData(AirRate.Mbps1, 2, -21)]
    [InlineData(AirRate.Mbps1, 3, -30)]
    [InlineData(AirRate.Mbps2, 2, 4)]
    [InlineData(AirRate.Mbps2, 4, -18)]
    [InlineData(AirRate.Kbps250, 1, -12)]
    [InlineData(AirRate.Kbps250, 2, -34)]
    public void Neighbours(AirRate rate, int distance, int needed)
    {
        Assert.Equal(1, WithNeighbour(rate, distance, needed));
        Assert.Equal(0, WithNeighbour(rate, distance, needed - 0.1));
    }

    /// <summary>Table 9 note a p17: 5 dB worse at multiples of 32 MHz; Table 9: -50 dB beyond 25 MHz at 1 Mbps, so -45 there.</summary>
    [Fact]
    public void Clock_related_distances()
    {
        Assert.Equal(1, WithNeighbour(AirRate.Mbps1, 31, -50));
        Assert.Equal(0, WithNeighbour(AirRate.Mbps1, 32, -45.1));
        Assert.Equal(1, WithNeighbour(AirRate.Mbps1, 32, -45));
    }

    /// <summary>Table 8 p16: a foreign signal in the channel.</summary>
    [Theory]
    [InlineData(74, -49, 1)]
    [InlineData(74, -48.9, 0)]
    [InlineData(75, -48, 1)]
    [InlineData(75, -47.9, 0)]
    [InlineData(77, -10, 1)]
    [InlineData(77, -9.9, 0)]
    public void Foreign_signal(int channel, double dbm, int received)
    {
        var pair = new Pair { Link = Plain }.Start().Load(8);
        pair.Air.Add(new Interferer(0, Ticks.Never, channel, dbm));
        pair.Pulse();

        Assert.Equal(received, pair.Receiver.RxFifo.Count);
    }

    /// <summary>
    /// 7.4 p33 with Table 16 p24: two receivers of one address answer at the same moment and spoil each other; where one is much nearer it
    /// is heard (Table 9 p17).
    /// </summary>
    [Theory]
    [InlineData(40, StatusFlags.MaxRt)]
    [InlineData(51, StatusFlags.MaxRt)]
    [InlineData(52, StatusFlags.TxDs)]
    public void Two_that_acknowledge(double otherLoss, byte flag)
    {
        var pair = new Pair();
        var third = pair.Air.Add(ChipVariants.Plus);
        var losses = new PairLoss();
        losses.Set(pair.Sender.Number, third.Number, otherLoss);
        pair.Air.Propagation = losses;
        pair.Link.Configure(third, isReceiver: true);
        pair.Start();
        third.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Settle);
        pair.Load(8).Pulse();

        Assert.Equal(flag, pair.Sender.Status & StatusFlags.All);
        Assert.Equal((1, 1), (pair.Receiver.RxFifo.Count, third.RxFifo.Count));
    }

    private static int ReceivedWithLoss(Link link, double loss)
    {
        var pair = new Pair { Link = link };
        pair.Air.Propagation = new PairLoss { Otherwise = loss };
        return pair.Start().Load(8).Pulse().Receiver.RxFifo.Count;
    }

    private static int WithNeighbour(AirRate rate, int distance, double lead)
    {
        var link = Plain with { Rate = rate, Channel = 40 };
        var pair = new Pair { Link = link };
        var other = pair.Air.Add(ChipVariants.Plus);
        var losses = new PairLoss();
        losses.Set(pair.Sender.Number, pair.Receiver.Number, 80);
        losses.Set(other.Number, pair.Receiver.Number, 80 + lead);
        pair.Air.Propagation = losses;
        (link with { Channel = 40 + distance }).Configure(other, isReceiver: false);
        pair.Start().Load(8);
        other.Transfer([Command.WTxPayload, .. Pair.Payload(32)]);
        other.Ce(true, pair.Air.Now);
        pair.Pulse();
        return pair.Receiver.RxFifo.Count;
    }

    // Two senders of different payloads at one receiver; the first leads by so many decibels, the second starts later.
    private static int[] Collide(AirRate rate, int lateMicroseconds, double lead)
    {
        var link = Plain with { Rate = rate };
        var pair = new Pair { Link = link };
        var second = pair.Air.Add(ChipVariants.Plus);
        var losses = new PairLoss();
        losses.Set(second.Number, pair.Receiver.Number, PairLoss.OneMetre + lead);
        pair.Air.Propagation = losses;
        link.Configure(second, isReceiver: false);
        pair.Start().Load(1, 1, 1, 1, 1, 1, 1, 1);
        second.Transfer(Command.WTxPayload, 2, 2, 2, 2, 2, 2, 2, 2);
        var start = pair.Air.Now;
        pair.Sender.Ce(true, start);
        second.Ce(true, start + Ticks.Microseconds(lateMicroseconds));
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);
        return [.. Enumerable.Range(0, pair.Receiver.RxFifo.Count).Select(i => (int)pair.Receiver.RxFifo.Payload(i)[0])];
    }
}
