using System.Globalization;
using System.Text;
using System.Text.Json;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

public sealed class CheckTests
{
    // Faults of reading that leave no network: no rule about networks, whichever there are, has a say.
    private const string Faulty = "radiolint: 1\nnetwork: Shed\nregoin: GB\n";

    private const string Sound =
        "radiolint: 1\nnetwork: cellar\nregion: GB\ninclude: [parts/payloads.yaml]\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n"
        + "  hall: { board: esp32, supply: { from: board pin }, pins: { ce: GPIO27, csn: GPIO5 } }\n";

    [Fact]
    public void Text() => InFolder(folder => Snapshot.Matches("check-text", CommandRun.Of(folder.Path, "check").ToString()));

    [Fact]
    public void Json() => InFolder(folder =>
    {
        var run = CommandRun.Of(folder.Path, "check", "--format", "json", "shed.radio.yaml", "gone");
        using var json = JsonDocument.Parse(run.Results);
        Assert.Equal(1, json.RootElement.GetProperty("version").GetInt32());
        Assert.Equal(["RL8014", "RL8015", "RL8003"], json.RootElement.GetProperty("findings").EnumerateArray().Select(each => each.GetProperty("rule").GetString()!));
        Assert.Equal("gone", json.RootElement.GetProperty("unread")[0].GetProperty("file").GetString());
        Assert.Equal(ExitStatus.NotDone, run.Status);
    });

    [Fact]
    public void The_apiary_passes_and_says_how_much_was_looked_at()
    {
        var run = CommandRun.Of(Repository.Root, "check", Repository.Apiary, "--rule", "RL8304=silent");
        Assert.Equal((ExitStatus.Passed, ""), (run.Status, run.Notes));
        Assert.Matches("checked 1 network \\([0-9]+ nodes, [0-9]+ links\\) by [0-9]+ rules: (nothing found|[0-9]+ )[^\n]*\n$", run.Results);
    }

    [Theory]
    [InlineData("error", "warning", 0)]
    [InlineData("warning", "warning", 1)]
    [InlineData("info", "info", 1)]
    [InlineData("warning", "info", 0)]
    [InlineData("none", "error", 0)]
    [InlineData("info", "silent", 0)]
    public void The_fail_level_decides(string failOn, string severity, int status)
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", "radiolint: 1\nnetwork: x\n");
        var run = CommandRun.Of(folder.Path, "check", "--fail-on", failOn, "--rule", $"rl8014={severity}");
        Assert.Equal(status, (int)run.Status);
        Assert.Equal(severity != "silent", run.Results.Contains($"{severity} RL8014", StringComparison.Ordinal));
    }

    [Fact]
    public void The_nearest_project_file_sets_severities_and_is_checked_at_its_own_path()
    {
        using var folder = new TemporaryFolder();
        folder.Write(".radiolint.yaml", "rules: { RL8014: error }\n");
        folder.Write("site/.radiolint.yaml", "rules: { RL8014: info, RL0: error }\nbaseline: known.json\nbasline: x\n");
        folder.Write("site/deep/x.radio.yaml", "radiolint: 1\nnetwork: x\n");
        folder.Write("site/y.radio.yaml", "radiolint: 1\nnetwork: y\n");
        Snapshot.Matches("check-project-file", CommandRun.Of(folder.At("site/deep"), "check", "..").ToString());
    }

    [Fact]
    public void No_project_file_above_the_repository_counts_and_an_empty_one_is_none()
    {
        using var folder = new TemporaryFolder();
        folder.Write("outer/.radiolint.yaml", "rules: { RL8014: info }\n");
        folder.Write("outer/inner/.git", "gitdir: elsewhere\n");
        folder.Write("outer/inner/x.radio.yaml", "radiolint: 1\nnetwork: x\n");
        Assert.Equal(ExitStatus.Failed, CommandRun.Of(folder.Path, "check", "outer/inner").Status);
        folder.Write("outer/inner/.radiolint.yaml", "# nothing yet\n");
        Assert.Contains(": 1 error\n", CommandRun.Of(folder.Path, "check", "outer/inner").Results, StringComparison.Ordinal);
        File.Delete(folder.At("outer/inner/.git"));
        File.Delete(folder.At("outer/inner/.radiolint.yaml"));
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "check", "outer/inner").Status);
    }

    [Fact]
    public void Includes_come_from_below_the_manifest_and_by_no_link_from_elsewhere()
    {
        using var folder = new TemporaryFolder();
        folder.Write("site/x.radio.yaml", Sound);
        Assert.Contains("error RL8008", CommandRun.Of(folder.Path, "check", "site").Results, StringComparison.Ordinal);
        folder.Write("elsewhere/payloads.yaml", "payloads: {}\nstranger: 1\n");
        folder.Link("site/parts", "../elsewhere");
        Assert.Contains("error RL8008", CommandRun.Of(folder.Path, "check", "site").Results, StringComparison.Ordinal);
        File.Delete(folder.At("site/parts"));
        folder.Write("site/parts/payloads.yaml", "payloads: {}\nstranger: 1\n");
        folder.Write("site/y.radio.yaml", Sound);
        var run = CommandRun.Of(folder.Path, "check", "site");
        Assert.DoesNotContain("RL8008", run.Results, StringComparison.Ordinal);
        Assert.Single(run.Results.Split('\n'), line => line.StartsWith("site/parts/payloads.yaml:2:1: error RL8003:", StringComparison.Ordinal));
    }

    [Fact]
    public void Standard_input_has_the_name_and_the_neighbours_of_the_file_it_stands_for()
    {
        using var folder = new TemporaryFolder();
        folder.Write("site/parts/payloads.yaml", "payloads: {}\nstranger: 1\n");
        var run = CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(Encoding.UTF8.GetBytes(Sound)) }, "check", "-", "--stdin-name", "site/new.radio.yaml");
        Assert.Contains("site/parts/payloads.yaml:2:1: error RL8003", run.Results, StringComparison.Ordinal);
        run = CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(Encoding.UTF8.GetBytes(Sound)) }, "check", "-");
        Assert.Contains("<stdin>:4:11: error RL8008", run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void The_day_counts_for_allowances_and_is_the_machines_unless_given()
    {
        using var folder = new TemporaryFolder();
        folder.Write(".radiolint.yaml", "rules: { allow: [ { rule: RL8014, because: not begun, until: 2026-06-01 } ] }\n");
        folder.Write("x.radio.yaml", "radiolint: 1\nnetwork: x\n");
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "check").Status);
        Assert.Equal(ExitStatus.Failed, CommandRun.Of(folder.Path, "check", "--today", "2026-06-02").Status);
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    public void No_culture_changes_a_byte(string culture)
    {
// The cultures are really there, and differ.
        Assert.NotEqual("1.5", 1.5.ToString(new CultureInfo("de-DE")));
        var expected = Everything();
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(expected, Everything());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        static string Everything() =>
            CommandRun.Of(Repository.Root, "check", "docs/examples").ToString() + CommandRun.Of(Repository.Root, "check", "docs/examples", "--format", "json") + CommandRun.Of(Repository.Root, "explain", "rl3001");
    }

    [Fact]
    public void A_text_that_is_too_large_is_a_finding()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", new string('#', (16 * 1024 * 1024) + 1));
        var run = CommandRun.Of(folder.Path, "check");
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.StartsWith("x.radio.yaml:1:1: error RL8001: the file has more than 16 MiB, the most that is read\n  help: ", run.Results, StringComparison.Ordinal);
    }

    private static void InFolder(Action<TemporaryFolder> test)
    {
        using var folder = new TemporaryFolder();
        folder.Write("shed.radio.yaml", Faulty);
        folder.Write("site/empty.radio.json", "");
        folder.Write("site/broken.radio.yaml", "radiolint: 1\nnodes: { a: [1, 2\n");
        test(folder);
    }
}
