using System.Diagnostics;
using RadioLint.Readback;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>The emitted bring-up program on an emulated AVR prints into a pseudo-terminal, and `radiolint readback --port` listens at its other end.</summary>
public sealed class ReadbackLive : IDisposable
{
    private static readonly string Manifest = Path.Combine(Emitted.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml");

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Theory]
    [InlineData("hall", "hall: as planned, 10 registers compared (26 registers read, lines 2 to 27)\n")]
    [InlineData("cellar", "cellar: as planned, 11 registers compared (26 registers read, lines 2 to 27)\n")]
    public async Task A_sound_node_is_as_planned(string node, string verdict)
    {
        var (status, results, notes) = await Listen(node, Emitted.WithPrograms(Manifest), "fresh");
        Assert.True(status == 0, results + notes);
        Assert.StartsWith(verdict, results, StringComparison.Ordinal);
        Assert.Contains("1 node, 1 listing: nothing found", results, StringComparison.Ordinal);
        // At the speed that the manifest plans: none is given.
        Assert.StartsWith("radiolint: listening to /dev/pts/", notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_radio_the_bus_is_at_fault()
    {
        var (status, results, notes) = await Listen("hall", Emitted.WithPrograms(Manifest), "gone");
        Assert.True(status == 1, results + notes);
        Assert.StartsWith("hall: the bus is at fault, so nothing can be said of the registers", results, StringComparison.Ordinal);
        Assert.Contains("error RL1902: all 26 registers of `hall` read 0xFF", results, StringComparison.Ordinal);
    }

    // A header that somebody has changed by hand: the program writes, checks and believes it.
    [Theory]
    [InlineData("0x25u, 0x4Au", "0x25u, 0x4Bu", "error RL3901: RF_CH of `hall` is 75, 2475 MHz, planned 74, 2474 MHz")]
    [InlineData("0x4Fu, 0xACu, 0x47u, 0x7Au, 0xABu", "0xABu, 0x7Au, 0x47u, 0xACu, 0x4Fu", "error RL4901: RX_ADDR_P1 of `hall` is 0x4FAC477AAB, planned 0xAB7A47AC4F; the same bytes turned round")]
    [InlineData("0x24u, 0x00u", "0x24u, 0x13u", "error RL5903: SETUP_RETR of `hall`: ARD is 1 (500 us), planned 0 (250 us); ARC is 3 (3 repetitions), planned 0 (no repetition)")]
    public async Task A_frame_that_was_changed_is_found(string text, string instead, string finding)
    {
        var files = Emitted.WithPrograms(Manifest);
        Assert.Contains(text, files["hall_radio.h"], StringComparison.Ordinal);
        var (status, results, notes) = await Listen("hall", files.SetItem("hall_radio.h", files["hall_radio.h"].Replace(text, instead, StringComparison.Ordinal)), "fresh");
        Assert.True(status == 1, results + notes);
        Assert.StartsWith("hall: differs from the plan in 1 of 10 registers compared", results, StringComparison.Ordinal);
        Assert.Contains(finding, results, StringComparison.Ordinal);
    }

    // Both readers of reports, this one and the one that C# programs get, find the same in what programs print.
    [Fact]
    public async Task Both_readers_read_the_same()
    {
        var (program, arguments) = await EmulatedNode.Build(shop, Emitted.WithPrograms(Emitted.Avr), Emitted.Avr, "bench-top", "gateway", 5, "fresh", "");
        var output = await shop.MustRun(program, arguments);
        var packets = new List<ReportedPacket>();
        var reader = new LogReader("log", packets.Add);
        foreach (var line in new LineSplitter().Add(output.ToCharArray(), output.LastIndexOf('\n') + 1))
            reader.Add(line);
        var reports = Report.All(output[..(output.LastIndexOf('\n') + 1)]);
        Assert.Equal(reports.Where(report => report.Kind == "rx").Select(report => report.Fields[1]), packets.Select(packet => Convert.ToHexString([.. packet.Bytes])));
        Assert.Equal(0, reader.End().Garbled);
        Assert.NotEmpty(packets);
    }

    private async Task<(int Status, string Results, string Notes)> Listen(string node, IEnumerable<KeyValuePair<string, string>> files, string chip)
    {
        var (program, arguments) = await EmulatedNode.Build(shop, files, Manifest, node, "bringup", 2, chip, "");
        using var terminal = new PseudoTerminal();
        using var listener = Start("dotnet", [Radiolint, "readback", Manifest, "--port", terminal.Port, "--node", node]);
        var results = listener.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        // Its first note comes right before the port is read.
        var begun = await listener.StandardError.ReadLineAsync(TestContext.Current.CancellationToken);
        var notes = listener.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        // Byte by byte as the serial port sends them, not at the end of the run.
        using var emulator = Start("stdbuf", ["-o0", program, .. arguments]);
        var characters = new char[64];
        while (!listener.HasExited && await emulator.StandardOutput.ReadAsync(characters, TestContext.Current.CancellationToken) is > 0 and var count)
            terminal.Write(new string(characters, 0, count));
        await listener.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(TimeSpan.FromSeconds(90), TestContext.Current.CancellationToken);
        if (!emulator.HasExited)
            emulator.Kill();
        return (listener.ExitCode, await results, begun + "\n" + await notes);
    }

    // Built by this project, in the configuration that the tests are built in.
    private static string Radiolint => Path.Combine(
        Emitted.Root, "src", "RadioLint.Cli", "bin", AppContext.BaseDirectory.Contains($"{Path.DirectorySeparatorChar}Debug{Path.DirectorySeparatorChar}", StringComparison.Ordinal) ? "Debug" : "Release", "net10.0", "radiolint.dll");

    private Process Start(string program, IEnumerable<string> arguments) => Process.Start(new ProcessStartInfo(program, arguments)
    {
        WorkingDirectory = shop.Folder, RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false,
    })!;
}
