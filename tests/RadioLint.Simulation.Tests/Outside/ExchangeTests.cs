using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Outside;

/// <summary>
/// Two devices of a general-purpose package talk over the model. Where package and nRF24L01+ Product Specification 1.0 disagree, the test
/// says so and the model follows the data sheet.
/// </summary>
public class ExchangeTests
{
    private static readonly byte[] Address = [0xF1, 0xB6, 0xB5, 0xB4, 0xB3];

    /// <summary>7.4 p33 with EN_AA off: the payload arrives as it was sent, whatever its length; the receiver hears of it by IRQ.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    [InlineData(31)]
    [InlineData(32)]
    public void Without_acknowledgement(byte size)
    {
        using var bench = new Bench();
        var (sender, sent, _) = bench.Add(size);
        var (receiver, received, _) = bench.Add(size);
        var got = new List<byte[]>();
        receiver.DataReceived += (_, args) => got.Add(args.Data);
        sender.Address = Address;
        receiver.Pipe0.Address = Address;
        for (var i = 0; i < 3; i++)
        {
            sender.Send(Pair.Payload(size));
            bench.Settle();
        }

        Assert.Equal(3, got.Count);
        Assert.All(got, each => Assert.Equal(Pair.Payload(size), each));
        Assert.Equal(3, bench.Air.Packets);
        Assert.Empty(sent.Violations);
        Assert.Empty(received.Violations);
    }

    /// <summary>7.4 p33: the same with acknowledgement: each packet is answered, TX_DS is set, nothing is repeated.</summary>
    [Fact]
    public void With_acknowledgement()
    {
        using var bench = new Bench();
        var (sender, sent, _) = bench.Add();
        var (receiver, received, _) = bench.Add();
        var got = 0;
        receiver.DataReceived += (_, _) => got++;
        sender.Address = Address;
        sender.Pipe0.Address = Address;
        sender.Pipe0.AutoAck = true;
        receiver.Pipe0.Address = Address;
        receiver.Pipe0.AutoAck = true;
        for (var i = 0; i < 3; i++)
        {
            sender.Send(Pair.Payload(8));
            bench.Settle();
        }

        Assert.Equal((3, 6L), (got, bench.Air.Packets));
        Assert.Equal(0x00, sent.Read(Register.ObserveTx));
        Assert.Equal(StatusFlags.TxDs, sent.Status & StatusFlags.All);
        Assert.Empty(sent.Violations);
        Assert.Empty(received.Violations);
    }

    /// <summary>7.6 p39-41: to each of the six pipes.</summary>
    [Fact]
    public void To_every_pipe()
    {
        using var bench = new Bench();
        var (sender, _, _) = bench.Add();
        var (receiver, chip, _) = bench.Add();
        var pipes = new[] { receiver.Pipe0, receiver.Pipe1, receiver.Pipe2, receiver.Pipe3, receiver.Pipe4, receiver.Pipe5 };
        var seen = new List<int>();
        receiver.DataReceived += (_, args) => seen.Add(args.Data[0]);
        pipes[0].Address = new byte[] { 0x78, 0x78, 0x78, 0x78, 0x78 };
        for (var i = 1; i < 6; i++)
            pipes[i].Address = i == 1 ? Address : new byte[] { (byte)(0xF0 + i) };
        foreach (var pipe in pipes)
        {
            pipe.Enable = true;
            pipe.AutoAck = true;
        }
        sender.Pipe0.AutoAck = true;
        for (var i = 0; i < 6; i++)
        {
            byte[] to = i == 0 ? [0x78, 0x78, 0x78, 0x78, 0x78] : [(byte)(0xF0 + i), 0xB6, 0xB5, 0xB4, 0xB3];
            sender.Address = to;
            sender.Pipe0.Address = to;
            sender.Send([(byte)i, 0, 0, 0, 0, 0, 0, 0]);
            bench.Settle();
        }

        Assert.Equal([0, 1, 2, 3, 4, 5], seen);
        Assert.Equal(12, bench.Air.Packets);
        Assert.Empty(chip.Violations);
    }

    /// <summary>Both ways, one after the other.</summary>
    [Fact]
    public void There_and_back()
    {
        using var bench = new Bench();
        var (one, _, _) = bench.Add();
        var (other, _, _) = bench.Add();
        byte[] atOne = [], atOther = [];
        one.DataReceived += (_, args) => atOne = args.Data;
        other.DataReceived += (_, args) => atOther = args.Data;
        foreach (var each in new[] { one, other })
        {
            each.Address = Address;
            each.Pipe0.Address = Address;
        }
        one.Send(Pair.Payload(8));
        bench.Settle();
        other.Send([8, 7, 6, 5, 4, 3, 2, 1]);
        bench.Settle();

        Assert.Equal(Pair.Payload(8), atOther);
        Assert.Equal([8, 7, 6, 5, 4, 3, 2, 1], atOne);
    }

    /// <summary>
    /// Table 28 p59, App. A p75: MAX_RT must be cleared before anything more is sent. Disagreement: the package never clears it; after one
    /// packet that nobody acknowledges nothing goes out, and the FIFO fills.
    /// </summary>
    [Fact]
    public void After_a_lost_packet_nothing_is_sent()
    {
        using var bench = new Bench();
        var (sender, chip, _) = bench.Add();
        sender.Address = Address;
        sender.Pipe0.Address = Address;
        sender.Pipe0.AutoAck = true;
        for (var i = 0; i < 4; i++)
        {
            sender.Send(Pair.Payload(8));
            bench.Settle();
        }

        Assert.Equal(4, bench.Air.Packets);
        Assert.Equal(StatusFlags.MaxRt, chip.Status & StatusFlags.All);
        Assert.True(chip.TxFifo.IsFull);
        Assert.Equal(ViolationKind.FifoFull, Assert.Single(chip.Violations).Kind);

        // Cleared by hand, all three go out, since the package holds CE high for some milliseconds.
        var (receiver, received, _) = bench.Add();
        receiver.Pipe0.Address = Address;
        receiver.Pipe0.AutoAck = true;
        var got = 0;
        receiver.DataReceived += (_, _) => got++;
        Link.Write(chip, Register.Status, StatusFlags.MaxRt);
        sender.Send(Pair.Payload(8));
        bench.Settle();
        // The one more finds room if the first of the three is gone by then, which is a matter of real time.
        Assert.InRange(got + received.RxFifo.Count, 3, 4);
    }

    /// <summary>Table 20 p51: 1 to 32 bytes. Disagreement: the package clocks out more; the model keeps 32.</summary>
    [Fact]
    public void Payload_of_33_bytes()
    {
        using var bench = new Bench();
        var (sender, chip, bus) = bench.Add(32);
        var (receiver, _, _) = bench.Add(32);
        byte[] got = [];
        receiver.DataReceived += (_, args) => got = args.Data;
        sender.Address = Address;
        receiver.Pipe0.Address = Address;
        sender.Send(Pair.Payload(33));
        bench.Settle();

        Assert.Contains(bus.Frames, each => each.Length == 34);
        Assert.Equal((ViolationKind.PayloadLength, 33), Assert.Single(chip.Violations.Select(each => (each.Kind, each.Value))));
        Assert.Equal(Pair.Payload(32), got);
    }

    /// <summary>
    /// 7.9 p49: plain ShockBurst needs EN_AA 0 and ARC 0. Disagreement: the package turns acknowledgement off and leaves ARC at 3, so that a
    /// chip in plain ShockBurst does not understand it; one with ARC 3 does.
    /// </summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(3, 1)]
    public void Not_plain_shockburst(int retries, int received)
    {
        using var bench = new Bench();
        var (sender, _, _) = bench.Add();
        sender.Address = Address;
        var chip = bench.Air.Add(ChipVariants.Plus);
        new Link { EnAa = 0, Retries = retries, Crc = 1 }.Configure(chip, isReceiver: true);
        bench.Settle();
        chip.Ce(true, bench.Air.Now);
        bench.Settle();
        sender.Send(Pair.Payload(8));
        bench.Settle();

        Assert.Equal(received, chip.RxFifo.Count);
    }

    /// <summary>Table 28 p57: one byte of checksum alone; a receiver with two takes nothing.</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 0)]
    public void Checksum_of_one_byte(int crc, int received)
    {
        using var bench = new Bench();
        var (sender, _, _) = bench.Add();
        sender.Address = Address;
        var chip = bench.Air.Add(ChipVariants.Plus);
        new Link { EnAa = 0, Retries = 3, Crc = crc }.Configure(chip, isReceiver: true);
        bench.Settle();
        chip.Ce(true, bench.Air.Now);
        bench.Settle();
        sender.Send(Pair.Payload(8));
        bench.Settle();

        Assert.Equal(received, chip.RxFifo.Count);
    }
}
