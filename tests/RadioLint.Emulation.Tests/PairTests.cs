using System.Collections.Immutable;
using System.Globalization;
using Proof;
using RadioLint.Emit;
using RadioLint.Model;
using RadioLint.Simulation;
using RadioLint.Text;
using Xunit;
using Air = RadioLint.Simulation.Air;

namespace RadioLint.Tests.Emulation;

/// <summary>
/// Emitted headers as compiled programs on emulated cores: an ATmega328P that sends and an ATmega2560 that listens, each started on a radio that holds something
/// else in every register.
/// </summary>
public sealed class PairTests : IDisposable
{
    private const string Manifest = """
        radiolint: 1
        network: pair
        region: GB
        air: { channel: 40, rate: 1 Mbps, retry: { delay: 500 us, limit: 3 } }
        nodes:
          hub:
            board: { based-on: atmega2560, clock: 16 MHz, logic: 5 V }
            supply: { from: adapter, part: AMS1117-3.3, input: 5 V, capacitor: 10 uF ceramic }
            board-supply: { from: mains, output: 5 V, limit: 1 A }
            pins: { ce: D48, csn: D49 }
            wires: 5 cm
          far:
            board: atmega328p
            supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }
            pins: { ce: D9, csn: D10 }
            wires: 5 cm
        links:
          - { from: far, to: hub, payload: reading, every: 1 min, address: 0xC2A7D19B33, pipe: 1 }
          - { from: hub, to: far, payload: order, with: acknowledgement }
        payloads:
          reading: { weight: int32 g, sequence: uint8 }
          order: { interval: uint16 s }
        """;

    private static readonly byte[] Packet = [0x11, 0x22, 0x33, 0x44, 0x55];
    private static readonly byte[] Answer = [0xA5, 0x5A];

    // By hand from nRF24L01+ Product Specification 1.0, Table 28, for the manifest above; address bytes low byte first (8.3.1).
    private static readonly string[] FarFrames =
    [
        "200C", "2101", "2201", "2303", "2413", "2528", "2606", "30339BD1A7C2", "2A339BD1A7C2", "3C01", "3D06", "2770", "E1", "E2", "200E",
    ];

    // DPL and automatic acknowledgement of pipe 0 as well: Table 28 note d, for the payload in acknowledgements.
    private static readonly string[] HubFrames =
    [
        "200D", "2103", "2202", "2303", "2400", "2528", "2606", "2B339BD1A7C2", "3C03", "3D06", "2770", "E1", "E2", "200F",
    ];

    private readonly Emulator emulator = new();

    public void Dispose() => emulator.Dispose();

    [Theory, InlineData("atmega328p", "D9", "D10"), InlineData("atmega32u4", "D9", "D10"), InlineData("atmega2560", "D48", "D49")]
    public async Task Both_cores_write_what_the_data_sheet_says_and_find_it_there(string board, string ce, string csn)
    {
        var manifest = Manifest.Replace("board: atmega328p\n", $"board: {{ based-on: {board}, clock: 16 MHz, logic: 5 V }}\n", StringComparison.Ordinal)
            .Replace("ce: D9, csn: D10", $"ce: {ce}, csn: {csn}", StringComparison.Ordinal);
        var (air, cores, traces) = await Run(manifest, Manifest);
        Assert.All(traces, trace => Assert.True(trace.IsDone));
        Assert.Equal(FarFrames, traces[0].Frames.Take(FarFrames.Length).Select(Convert.ToHexString));
        Assert.Equal(HubFrames, traces[1].Frames.Take(HubFrames.Length).Select(Convert.ToHexString));
        // The same out of the data sheet's tables, by the encoder that knows nothing of the library; and what the registers hold, used or not.
        var planned = Plan.Read(manifest);
        foreach (var (node, frames, chip) in new[] { ("far", FarFrames, cores[0].Radio), ("hub", HubFrames, cores[1].Radio) })
        {
            Assert.Equal(planned[node].Frames.Select(Convert.ToHexString), frames);
            Assert.All(Writable, register =>
            {
                var held = (byte[])[.. Soiled(register)];
                (planned[node].Registers.TryGetValue(register, out var bytes) ? bytes : []).CopyTo(held, 0);
                Assert.Equal(held.Select((one, i) => (ulong)one << (8 * i)).Aggregate((one, other) => one | other), chip.ReadWide(register));
            });
        }
        Assert.Equal((0, 0), (traces[0].Result.Differences, traces[1].Result.Differences));
        // Enabled, master, most significant bit first, mode 0, a quarter of 16 MHz: at every byte.
        Assert.All(traces, trace => Assert.Equal(0x50, Assert.Single(trace.SpiSetups)));
        Assert.All(cores, core => Assert.Empty(core.Radio.Violations));
        GC.KeepAlive(air);
    }

    [Fact]
    public async Task A_packet_goes_over_and_an_answer_comes_back()
    {
        var (_, _, traces) = await Run(Manifest, Manifest);
        Assert.Equal(0x20, traces[0].Result.Status & 0x30);
        Assert.Equal(Packet, Reported(traces[1]));
        Assert.Equal(Answer, Reported(traces[0]));
    }

    [Fact]
    public async Task Two_runs_are_the_same_to_the_cycle()
    {
        var (_, _, first) = await Run(Manifest, Manifest);
        var (_, _, second) = await Run(Manifest, Manifest);
        for (var i = 0; i < first.Length; i++)
        {
            Assert.Equal(first[i].MarkedAt, second[i].MarkedAt);
            Assert.Equal(first[i].Frames.Select(Convert.ToHexString), second[i].Frames.Select(Convert.ToHexString));
        }
    }

    // One setting of the receiver alone is another one, and the exchange fails as the data sheet has it.
    [Theory]
    [InlineData("channel", "channel: 40", "channel: 41", false)]
    [InlineData("rate", "rate: 1 Mbps", "rate: 2 Mbps", false)]
    [InlineData("width", "retry:", "address-width: 4, retry:", false)]
    [InlineData("address", "0xC2A7D19B33", "0xC2A7D19B34", false)]
    [InlineData("CRC", "retry:", "crc: 1 byte, retry:", false)]
    [InlineData("length", "retry:", "payload-length: exact, retry:", true)]
    [InlineData("acknowledgement", "retry:", "acknowledge: false, payload-length: exact, retry:", false)]
    public async Task A_single_difference_ends_it(string what, string before, string after, bool arrives)
    {
        var other = Manifest.Replace(before, after, StringComparison.Ordinal);
        if (what == "width")
            other = other.Replace("0xC2A7D19B33", "0xA7D19B33", StringComparison.Ordinal);
        // Without dynamic length nothing can ride back.
        if (what is "length" or "acknowledgement")
            other = other.Replace("  - { from: hub, to: far, payload: order, with: acknowledgement }\n", "", StringComparison.Ordinal);
        Assert.NotEqual(Manifest, other);
        var (_, _, traces) = await Run(Manifest, other, answers: what is not ("length" or "acknowledgement"));
        Assert.All(traces, trace => Assert.True(trace.IsDone, what));
        // A pipe of just the packet's length takes it, and acknowledges it empty; all else ends in MAX_RT.
        Assert.Equal(arrives ? 0x20 : 0x10, traces[0].Result.Status & 0x30);
        Assert.Equal(arrives ? Packet : [], Reported(traces[1]));
    }

    [Fact]
    public async Task Configuring_takes_as_long_as_measured()
    {
        var (_, _, traces) = await Run(Manifest, Manifest);
        var bytes = FarFrames.Sum(frame => frame.Length / 2);
        var cycles = traces[0].MarkedAt[NodeProgram.Configured] - traces[0].MarkedAt[NodeProgram.Started];
        // 5 ms of start-up at 16 MHz are 80,000 cycles, and a third more for the loop that waits a microsecond at a time; the frames come on top, at 32 cycles a byte.
        Assert.InRange(cycles, 80_000 + (32 * bytes), 125_000);
    }

    private static byte[] Reported(AvrTrace trace)
    {
        var nibbles = trace.Marks.Where(mark => mark >= 0x80).Select(mark => (byte)(mark & 15)).ToList();
        var bytes = nibbles.Chunk(2).Select(pair => (byte)((pair[0] << 4) | pair[1])).ToArray();
        // The first says how many follow.
        Assert.True(bytes.Length == 0 || bytes.Length == bytes[0] + 1, Convert.ToHexString(bytes));
        return bytes.Length == 0 ? [] : bytes[1..];
    }

    private async Task<(Air Air, AvrCore[] Cores, AvrTrace[] Traces)> Run(string ofSender, string ofReceiver, bool answers = true)
    {
        var air = new Air();
        var (far, hub) = (air.Add(ChipVariants.Plus), air.Add(ChipVariants.Plus));
        air.AdvanceBy(200 * Ticks.PerMillisecond);
        Soil(far);
        Soil(hub);
        AvrCore[] cores =
        [
            await Core("far", ofSender, NodeProgram.Of("far", Packet, null), far),
            await Core("hub", ofReceiver, NodeProgram.Of("hub", null, answers ? Answer : null), hub),
        ];
        return (air, cores, await emulator.Run(air, 16_000_000, cores));
    }

    private async Task<AvrCore> Core(string name, string manifest, string program, Chip radio)
    {
        var network = Linter.Check(new SourceText("pair.radio.yaml", manifest)).Network!;
        var node = network.Nodes.Single(node => node.Name == name);
        (char, int) Pin(string signal) => node.Wiring.Lines().Single(line => line.Signal == signal).Pin!.Port is ['P', var port, var bit] ? (port, bit - '0') : throw new InvalidOperationException(signal);
        var mcu = node.Board!.Chip.ToLowerInvariant();
        return new(mcu, await emulator.Compile(name, mcu, Headers(network), program), Pin("csn"), Pin("ce"), radio);
    }

    private static readonly IEnumerable<byte> Writable =
        [.. Enumerable.Range(0, 0x1E).Where(register => register is not (0x07 or 0x08 or 0x09 or 0x17 or (>= 0x18 and <= 0x1B))).Select(register => (byte)register)];

    // What a register holds at the start: something else than any plan of these tests, in bits that it has.
    private static byte[] Soiled(byte register) => register switch
    {
        0x0A or 0x0B or 0x10 => [0x91, 0x82, 0x73, 0x64, 0x55],
        0x00 => [0x71],
        0x03 => [0x01],
        0x05 => [0x55],
        0x06 => [0x28],
        0x1D => [0x02],
        _ => [0x2A],
    };

    // Every register that can be written holds something else, both FIFOs are full, flags are set as far as they can be.
    private static void Soil(Chip chip)
    {
        foreach (var register in Writable)
            chip.Transfer([(byte)(0x20 | register), .. Soiled(register)]);
        for (var i = 0; i < 3; i++)
            chip.Transfer(0xA0, 1, 2, 3);
        chip.ForgetViolations();
    }

    private static ImmutableArray<(string, string)> Headers(Network network)
    {
        var set = EmitSet.Of(network, new());
        Assert.Empty(set.Findings.Select(finding => string.Create(CultureInfo.InvariantCulture, $"{finding.Place}: {finding.Message}")));
        return [.. set.Files.Select(file => (file.Name, file.Text))];
    }
}
