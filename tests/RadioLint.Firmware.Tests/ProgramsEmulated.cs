using System.Globalization;
using Proof;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>
/// Emitted programs with their ready-made hooks, built by the emitted Makefile, on an emulated AVR (programs/emulated.c): pins, SPI unit, serial
/// port, timer and waits as the part has them, by the emulator's account.
/// </summary>
public sealed class ProgramsEmulated : IDisposable
{
    private readonly Workshop shop = new();

    // Every part that the hooks know, at five clocks, CE tied high among them.
    public static TheoryData<string, string> Nodes() => new()
    {
        { Emitted.Apiary, "hive-1" }, { Emitted.Apiary, "nursery" },
        { Emitted.Avr, "bench-top" }, { Emitted.Avr, "drill" }, { Emitted.Avr, "lathe" }, { Emitted.Avr, "press" }, { Emitted.Avr, "saw" },
    };

    public void Dispose() => shop.Dispose();

    [Theory, MemberData(nameof(Nodes))]
    public async Task Bring_up_runs_by_the_clock_and_sends(string manifest, string node)
    {
        var (output, reports) = await Run(manifest, node, "try", 4);
        Assert.Contains("radio as planned\r\n", output, StringComparison.Ordinal);
        var registers = reports.Where(report => report.Kind == "reg").ToDictionary(report => report.Fields[0], report => report.Fields[1]);
        Assert.Equal(26, registers.Count);
        // What the data sheet's tables make of the manifest, by the encoder that knows nothing of the library; STATUS alone is live.
        var planned = Plan.Read(await File.ReadAllTextAsync(manifest, TestContext.Current.CancellationToken))[node].Registers;
        Assert.True(planned.Count >= 11);
        Assert.All(planned, register => Assert.Equal(Convert.ToHexString(register.Value), registers[register.Key.ToString("X2", CultureInfo.InvariantCulture)]));
        // Four seconds, the first of them from the timer's start, which is before the wait after power on.
        Assert.Equal(["1", "2", "3"], reports.Where(report => report.Kind == "beat").Select(report => report.Fields[0]));
        if (node != "bench-top")
            Assert.Equal(["ok", "ok", "ok"], reports.Where(report => report.Kind == "tx").Select(report => report.Fields[0]));
    }

    [Fact]
    public async Task The_lines_on_the_page_are_those_of_the_program()
    {
        var page = await File.ReadAllTextAsync(Path.Combine(Emitted.Root, "docs", "bring-up.md"), TestContext.Current.CancellationToken);
        var lines = page.Split('\n').Where(line => line.StartsWith("rl1 ", StringComparison.Ordinal)).ToList();
        Assert.True(lines.Count >= 4);
        var (output, _) = await Run(Path.Combine(Emitted.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml"), "hall", "bringup", 2);
        Assert.All(lines, line => Assert.Contains(line + "\r\n", output, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Without_a_radio_it_says_so()
    {
        var (output, _) = await Run(Emitted.Avr, "drill", "bringup", 2, chip: "gone");
        Assert.Contains("no radio answers", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_survey_hears_what_is_there()
    {
        var (output, reports) = await Run(Emitted.Avr, "press", "survey", 10);
        var first = reports.Where(report => report.Kind == "sweep" && report.Fields[0] == "1").SelectMany(report => report.Fields.Skip(3)).ToList();
        Assert.Equal(Enumerable.Range(0, 126).Select(channel => channel % 25 == 3 ? "100" : "0"), first);
        ProgramRuns.ReadsAsHeard(output, "press", 1);
    }

    [Fact]
    public async Task A_gateway_hears_and_takes_an_order_from_its_serial_port()
    {
        var (_, reports) = await Run(Emitted.Avr, "bench-top", "gateway", 5, order: "noise\r\n" + Report.Line("rl1 tx drill 0258") + "\n");
        Assert.InRange(reports.Count(report => report.Kind == "rx"), 7, 8);
        Assert.All(reports.Where(report => report.Kind == "rx"), report => Assert.Equal("DEADBEEF0123456789", report.Fields[1]));
        // It left with the acknowledgement of a packet on that node's pipe.
        Assert.Equal(["ok", "0"], Assert.Single(reports, report => report.Kind == "tx").Fields);
    }

    [Theory]
    [InlineData("(1u << SPR0)", "(1u << SPR0) | (1u << CPHA)")]
    [InlineData("(1u << SPR0)", "(1u << SPR0) | (1u << DORD)")]
    [InlineData("(1u << SPR0)", "(1u << SPR1)")]
    [InlineData("BENCH_TOP_PIN_CSN_DIRECTION |=", "BENCH_TOP_PIN_CSN_OUTPUT |=")]
    public async Task Wrong_hooks_are_noticed(string text, string instead)
    {
        var files = Emitted.WithPrograms(Emitted.Avr);
        var hooks = files["bench_top_hooks_avr.h"];
        Assert.Contains(text, hooks, StringComparison.Ordinal);
        var (status, output) = await Start(files.SetItem("bench_top_hooks_avr.h", hooks.Replace(text, instead, StringComparison.Ordinal)), Emitted.Avr, "bench-top", "bringup", 1, "fresh", "");
        Assert.True(status != 0, output);
    }

    private async Task<(string Output, List<Report> Reports)> Run(string manifest, string node, string program, int seconds, string chip = "fresh", string order = "")
    {
        var (status, output) = await Start(Emitted.WithPrograms(manifest), manifest, node, program, seconds, chip, order);
        Assert.True(status == 0, output);
        // The end of the run cuts a line.
        return (output, Report.All(output[..(output.LastIndexOf('\n') + 1)]));
    }

    private async Task<(int Status, string Output)> Start(
        IEnumerable<KeyValuePair<string, string>> files, string manifest, string name, string program, int seconds, string chip, string order)
    {
        var (emulator, arguments) = await EmulatedNode.Build(shop, files, manifest, name, program, seconds, chip, order);
        return await shop.Run(emulator, arguments);
    }
}
