using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>A network that works may begin with what it has: only new findings fail.</summary>
public sealed class BaselineTests
{
    [Fact]
    public void An_entry_that_is_found_no_more_is_told_of_where_its_file_was_checked()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a/x.radio.yaml", Text("left", 126));
        folder.Write("b/y.radio.yaml", Text("right", 126));
        Check(".", "--adopt");
        Assert.DoesNotContain("RL8106", Check(".").Results, StringComparison.Ordinal);

        folder.Write("b/y.radio.yaml", Text("right", 74));
        // Each entry begins with its name, and its rule stands in the next line; that of the second file is the last.
        var lines = File.ReadAllLines(folder.At("known.json"));
        var line = lines.Index().Last(line => lines[Math.Min(line.Index + 1, lines.Length - 1)].Contains("\"RL3001\"", StringComparison.Ordinal));
        Assert.Contains(
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"known.json:{line.Index + 1}:{line.Item.IndexOf(": ", StringComparison.Ordinal) + 3}: info RL8106: RL3001 in `b/y.radio.yaml` is no longer found\n"),
            Check(".").Results, StringComparison.Ordinal);
        // The other file was not looked at, or the rule is silent.
        Assert.DoesNotContain("RL8106", Check("a").Results, StringComparison.Ordinal);
        Assert.DoesNotContain("RL8106", Check(".", "--rule", "RL8106=silent").Results, StringComparison.Ordinal);
        Assert.Equal((ExitStatus.Passed, ExitStatus.Failed), (Check("b").Status, Check("b", "--rule", "RL8106=error").Status));
        Assert.Contains("\"RL8106\"", Check(".", "--format", "json").Results, StringComparison.Ordinal);

        Check(".", "--adopt");
        Assert.DoesNotContain("RL8106", Check(".").Results, StringComparison.Ordinal);

        CommandRun Check(string place, params string[] more) => CommandRun.Of(folder.Path, ["check", place, "--baseline", "known.json", "--rule", "RL1001=silent", .. more]);
        static string Text(string name, int channel) => FormattableString.Invariant($"radiolint: 1\nnetwork: {name}\nregion: GB\nair: {{ channel: {channel} }}\nnodes: {{ hall: {{ board: esp32 }} }}\n");
    }

    private static readonly string Apiary = File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml"));

    private static readonly string Wrong = Apiary.Replace("channel: 74", "channel: 90", StringComparison.Ordinal);

    [Fact]
    public void Only_new_findings_fail()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Wrong);
        Assert.Equal(ExitStatus.Failed, CommandRun.Of(folder.Path, "check").Status);
        var adopted = CommandRun.Of(folder.Path, "check", "--baseline", "known.json", "--adopt");
        Assert.Equal(ExitStatus.Passed, adopted.Status);
        Assert.EndsWith(" adopted into known.json\n", adopted.Notes, StringComparison.Ordinal);
        var known = CommandRun.Of(folder.Path, "check", "--baseline", "known.json");
        Assert.Equal(ExitStatus.Passed, known.Status);
        Assert.DoesNotContain("RL3002", known.Results, StringComparison.Ordinal);
        Assert.Matches("[0-9]+ known\n$", known.Results);

        // Moved, it is still known; a new one is not.
        folder.Write("a.radio.yaml", "# a remark\n\n" + Wrong);
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "check", "--baseline", "known.json").Status);
        folder.Write("a.radio.yaml", Wrong.Replace("payload: alarm,", "payload: alarms,", StringComparison.Ordinal));
        var fresh = CommandRun.Of(folder.Path, "check", "--baseline", "known.json");
        Assert.Equal(ExitStatus.Failed, fresh.Status);
        Assert.Contains("RL8011", fresh.Results, StringComparison.Ordinal);
        Assert.DoesNotContain("RL3002", fresh.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_may_name_it()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Wrong);
        folder.Write(".radiolint.yaml", "baseline: known.json\n");
        CommandRun.Of(folder.Path, "check", "--adopt");
        Assert.True(File.Exists(folder.At("known.json")));
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "check").Status);
    }

    // What keeps a file from being read as meant is never old news.
    [Fact]
    public void What_cannot_be_read_is_not_adopted()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Apiary.Replace("\nlinks:", "\nlinkz:", StringComparison.Ordinal));
        CommandRun.Of(folder.Path, "check", "--baseline", "known.json", "--adopt");
        Assert.Equal(ExitStatus.Failed, CommandRun.Of(folder.Path, "check", "--baseline", "known.json").Status);
    }

    [Fact]
    public void The_same_findings_give_the_same_bytes()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Wrong);
        CommandRun.Of(folder.Path, "check", "--baseline", "one.json", "--adopt");
        CommandRun.Of(folder.Path, "check", "--baseline", "two.json", "--adopt");
        Assert.Equal(File.ReadAllBytes(folder.At("one.json")), File.ReadAllBytes(folder.At("two.json")));
    }

    [Theory]
    [InlineData(null, "cannot read the baseline `known.json`: there is no such file or folder; write it with `--adopt`")]
    [InlineData("", "`known.json` is no baseline; write it anew with `--adopt`")]
    [InlineData("[]", "`known.json` is no baseline; write it anew with `--adopt`")]
    [InlineData("{\"format\": 1, \"known\": [1]}", "`known.json` is no baseline; write it anew with `--adopt`")]
    [InlineData("{\"format\": 2}", "the baseline `known.json` has format 2, and only 1 is known")]
    public void A_baseline_that_cannot_be_read_is_refused(string? text, string note)
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Apiary);
        if (text is not null)
            folder.Write("known.json", text);
        var run = CommandRun.Of(folder.Path, "check", "--baseline", "known.json");
        Assert.Equal((ExitStatus.NotDone, $"radiolint: {note}\n"), (run.Status, run.Notes));
    }

    [Fact]
    public void To_adopt_needs_a_place()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Apiary);
        Assert.Equal("radiolint: `--adopt` needs to know where to write; add `--baseline FILE`, or `baseline` in `.radiolint.yaml`\n", CommandRun.Of(folder.Path, "check", "--adopt").Notes);
    }
}
