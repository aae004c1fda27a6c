using System.Globalization;
using RadioLint.Radio;
using RadioLint.Survey;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Emitted programs compiled for this machine and run on a board of the tests' own (programs/board.c), and what they say.</summary>
public sealed class ProgramRuns : IDisposable
{
    private static readonly System.Collections.Immutable.ImmutableSortedDictionary<string, string> Apiary = Emitted.WithPrograms(Emitted.Apiary);

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Theory]
    [InlineData("store")]
    [InlineData("weather")]
    [InlineData("shed")]
    [InlineData("office")]
    public async Task Bring_up_tells_who_it_is_and_every_register_then_beats(string node)
    {
        var (output, reports) = await Run($"{node}_bringup.c", [], ("SECONDS", "65"));
        Assert.Contains("radio as planned\r\n", output, StringComparison.Ordinal);
        Assert.All(reports, report => Assert.Equal(node, report.Node));
        Assert.Equal(["boot", .. Enumerable.Repeat("reg", 26), "end", .. Enumerable.Repeat("beat", 65)], reports.Select(report => report.Kind));
        var header = Apiary[$"{node}_radio.h"];
        Assert.All(reports[0].Fields, field => Assert.Contains($" 0x{field}uL", header, StringComparison.Ordinal));
        Assert.Equal(["26"], reports[27].Fields);
        Assert.Equal(Enumerable.Range(1, 65), reports[28..].Select(report => int.Parse(report.Fields[0], CultureInfo.InvariantCulture)));

        var image = Emitted.Network(Emitted.Apiary) is var network ? network.Plan.Of(network.Nodes.Single(one => one.Name == node)).Image! : null!;
        var told = reports[1..27].ToDictionary(report => Convert.ToByte(report.Fields[0], 16), report => report.Fields[1]);
        Assert.Equal([.. Enumerable.Range(0, 0x18), 0x1C, 0x1D], told.Keys.Select(address => (int)address));
        for (byte address = 0; address < 0x1E; address++)
        {
            if (address != Registers.Status && image[address] is { } planned)
                Assert.Equal(Convert.ToHexString(planned.AsSpan()), told[address]);
        }
    }

    [Theory]
    [InlineData("gone", "no radio answers: supply, CSN, SCK, MOSI, MISO", "FF")]
    [InlineData("other", "radio does not hold what was planned: wiring, supply or another part", "0E")]
    public async Task Bring_up_goes_on_trying_and_says_what_is_wrong(string chip, string words, string status)
    {
        var (output, reports) = await Run("store_bringup.c", ["-DRADIO_TRY"], ("SECONDS", "25"), ("CHIP", chip));
        Assert.Equal(3, output.Split(words).Length - 1);
        Assert.Equal(3 * 26, reports.Count(report => report.Kind == "reg"));
        Assert.Equal(25, reports.Count(report => report.Kind == "beat"));
        Assert.All(reports.Where(report => report is { Kind: "reg", Fields: ["07", _] }), report => Assert.Equal(status, report.Fields[1]));
        Assert.Equal(25, reports.Count(report => report is { Kind: "tx", Fields: ["busy", "0"] }));
    }

    [Theory]
    [InlineData("fresh", "ok", "1")]
    [InlineData("alone", "gave-up", "*")]
    public async Task A_sender_tries_a_packet_each_second(string chip, string outcome, string retries)
    {
        var (_, reports) = await Run("store_bringup.c", ["-DRADIO_TRY"], ("SECONDS", "4"), ("CHIP", chip));
        var sent = reports.Where(report => report.Kind == "tx").ToList();
        Assert.Equal(4, sent.Count);
        var limit = Apiary["store_radio.h"].Split("STORE_RETRY_LIMIT ")[1].Split('u')[0];
        Assert.All(sent, report => Assert.Equal([outcome, retries == "*" ? limit : retries], report.Fields));
    }

    [Fact]
    public async Task A_listener_tells_what_arrives_while_it_tries()
    {
        var (_, reports) = await Run("shed_bringup.c", ["-DRADIO_TRY"], ("SECONDS", "3"), ("PACKETS", "5"));
        Assert.Equal(5, reports.Count(report => report.Kind == "rx"));
    }

    [Fact]
    public async Task A_dip_of_the_supply_is_mended_within_a_minute()
    {
        var (output, reports) = await Run("weather_bringup.c", ["-DRADIO_TRY"], ("SECONDS", "125"), ("CHIP", "dips"));
        Assert.Equal(2, output.Split("radio had lost its registers, configured anew: look at its supply").Length);
        Assert.Equal("ok", reports.Last(report => report.Kind == "tx").Fields[0]);
        Assert.Contains(reports, report => report is { Kind: "tx", Fields: ["busy", _] });
    }

    [Theory]
    [InlineData("weather", "200")]
    [InlineData("shed", "200")]
    public async Task A_survey_tells_every_channel_and_stays_silent(string node, string dwell)
    {
        // So many letters are two sweeps and the start of a third.
        var (output, reports) = await Run($"{node}_survey.c", [], ("LETTERS", "1100"));
        var sweeps = reports.Where(report => report.Kind == "sweep").ToList();
        Assert.Equal("boot", reports[0].Kind);
        foreach (var number in new[] { "1", "2" })
        {
            var (channel, lines) = (0, sweeps.Where(report => report.Fields[0] == number).ToList());
            Assert.InRange(lines.Count, 2, 8);
            foreach (var line in lines)
            {
                Assert.Equal((dwell, $"{channel}"), (line.Fields[1], line.Fields[2]));
                foreach (var hits in line.Fields.Skip(3))
                    Assert.Equal(channel++ % 25 == 3 ? "100" : "0", hits);
            }
            Assert.Equal(126, channel);
        }
        ReadsAsHeard(output, node, 2);
    }

    /// <summary>The reader of surveys gets out of a program's lines what was put into its radio: every 25th channel busy, from the third on.</summary>
    internal static void ReadsAsHeard(string output, string node, int atLeast)
    {
        var (sweeps, number) = (new List<Sweep>(), 0);
        var reader = new SurveyLogReader("port", new(), sweeps.Add);
        foreach (var line in output.Split('\n'))
            Assert.True(reader.Add(new(line.TrimEnd('\r'), ++number)));
        var log = reader.End();
        Assert.Equal((SurveyForm.Reports, 200_000L), (log.Form, log.Dwell!.Value.Time.Nanoseconds));
        // The end of the run cuts a line, and with it a sweep.
        Assert.InRange(log.Broken, 0, 1);
        Assert.True(sweeps.Count >= atLeast, $"{sweeps.Count}");
        Assert.All(sweeps, sweep => Assert.Equal(node, sweep.Where));
        for (var at = 0; at < sweeps.Count; at++)
        {
            Assert.Equal(at + 1, sweeps[at].Number);
            for (var channel = 0; channel < Sweep.Channels; channel++)
            {
                Assert.True(sweeps[at].Samples[channel] == 100 || (at == sweeps.Count - 1 && sweeps[at].Samples[channel] == 0), $"{at} {channel}");
                Assert.Equal(channel % 25 == 3 ? sweeps[at].Samples[channel] : 0, sweeps[at].Heard[channel]);
            }
        }
        Assert.Equal([.. Enumerable.Range(0, 5).Select(i => (25 * i) + 3)], Enumerable.Range(0, Sweep.Channels).Where(channel => log.Heard[channel] > 0));
    }

    [Fact]
    public async Task A_gateway_tells_what_arrives_on_which_pipe()
    {
        var (output, reports) = await Run("shed_gateway.c", [], ("SECONDS", "130"), ("PACKETS", "40"));
        var heard = reports.Where(report => report.Kind == "rx").ToList();
        Assert.Equal(40, heard.Count);
        Assert.Equal(Enumerable.Range(0, 40).Select(i => $"{1 + (40 - i) % 3}"), heard.Select(report => report.Fields[0]));
        Assert.All(heard[..39], report => Assert.Equal("DEADBEEF0123456789", report.Fields[1]));
        Assert.Equal("DEADBEEF0123456789" + new string('0', 46), heard[39].Fields[1]);
        Assert.Equal(["60", "120"], reports.Where(report => report.Kind == "beat").Select(report => report.Fields[0]));
        Assert.Contains("radio as planned\r\n", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_gateway_carries_out_orders_and_refuses_what_is_none()
    {
        var order = Report.Line("rl1 tx hive-2 05DC0001");
        string[] lines =
        [
            "hello", order, order[..^1] + (order[^1] == '0' ? '1' : '0'), order[..^4], "rl1 tx hive-2 05DC0001 *",
            Report.Line("rl1 tx hive-2 05DC00"), Report.Line("rl1 tx hive-9 05DC0001"), Report.Line("rl1 tx hive-2x 05DC0001"),
            Report.Line("rl1 tx hive-2 05dc0001"), Report.Line("rl1 rx hive-2 05DC0001"), Report.Line("rl1 tx hive-2"), new string('x', 300), Report.Line("rl1 tx hive-2 " + new string('0', 90)),
        ];
        var (_, reports) = await Run("shed_gateway.c", [], string.Join("\r\n", lines) + "\n", ("SECONDS", "5"), ("PACKETS", "30"));
        var told = reports.Where(report => report.Kind == "tx").Select(report => string.Join(' ', report.Fields)).ToList();
        // All but the good one, and but for what is no order: two lines and one that is too long.
        Assert.Equal(lines.Length - 4, told.Count(one => one == "busy 0"));
        Assert.Equal(1, told.Count(one => one == "ok 0"));
        Assert.Equal(30, reports.Count(report => report.Kind == "rx"));
    }

    [Fact]
    public async Task A_gateway_waits_for_its_radio()
    {
        var (output, _) = await Run("office_gateway.c", [], ("LETTERS", "400"), ("CHIP", "gone"));
        Assert.InRange(output.Split("no radio answers").Length, 4, 20);
    }

    private Task<(string Output, List<Report> Reports)> Run(string program, string[] flags, params (string, string)[] environment) =>
        Run(program, flags, "", environment);

    private async Task<(string Output, List<Report> Reports)> Run(string program, string[] flags, string input, params (string, string)[] environment)
    {
        shop.WriteAll(Apiary);
        foreach (var file in new[] { "fake_chip.h", "board.c" })
            shop.Write(file, File.ReadAllText(Emitted.Program(file)));
        // The board is POSIX; the program is C99 and nothing else.
        await shop.MustRun("gcc", "-std=gnu99", "-Wall", "-Wextra", "-c", "board.c", "-o", "board.o");
        await shop.MustRun("gcc", ["-std=c99", "-O1", "-fsanitize=undefined,address", "-fno-sanitize-recover=all", "-Wall", "-Wextra", "-Werror", .. flags, program, "board.o", "-o", "program"]);
        var (status, output) = await shop.Run(Path.Combine(shop.Folder, "program"), [], environment, input);
        Assert.True(status == 0, output);
        return (output, Report.All(output));
    }
}
