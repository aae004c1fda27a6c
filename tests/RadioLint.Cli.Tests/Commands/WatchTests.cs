using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>`check --watch` as people use it: a process beside an editor that saves files. Linux and macOS.</summary>
public sealed class WatchTests
{
    private const string NoNodes = "radiolint: 1\nnetwork: x\n";

    [Fact]
    public void Tells_what_came_and_went_and_ends_with_the_status_of_the_last_state()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", NoNodes);
        using var watcher = new Watcher(folder.Path, "x.radio.yaml");
        Assert.EndsWith(": 1 error", watcher.Until("could not read 1 file"), StringComparison.Ordinal);

        folder.Write("x.radio.yaml", "\n" + NoNodes + "regoin: GB\n");
        var change = watcher.Until(" came, ");
        // The one about nodes stands a line lower, and has neither come nor gone.
        Assert.Equal(
            "x.radio.yaml:4:1: error RL8003: a manifest has no key `regoin`\n    regoin: GB\n    ^~~~~~\n  help: write `region`, or start the name with `x-` for a note of your own\n\n"
            + "1 came, 0 went; could not read 1 file as a network: 2 errors",
            change);

        folder.Write("x.radio.yaml", NoNodes + "region: GB\n");
        Assert.Equal("gone: x.radio.yaml:4:1: error RL8003: a manifest has no key `regoin`\n0 came, 1 went; could not read 1 file as a network: 1 error", watcher.Until(" came, "));
        Assert.Equal((1, ""), watcher.Stop());
    }

    [Fact]
    public void A_file_that_is_gone_for_a_while_has_not_been_mended()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("x.radio.yaml", NoNodes);
        using var watcher = new Watcher(folder.Path, "x.radio.yaml", "--fail-on", "none");
        watcher.Until("could not read");
        File.Move(file, folder.At("aside"));
        watcher.Note("radiolint: cannot read `x.radio.yaml`: there is no such file or folder");
        File.Move(folder.At("aside"), file);
        Assert.Equal("0 came, 0 went; could not read 1 file as a network: 1 error", watcher.Until(" came, "));

        // As editors save: the old one away, the new one written beside it and renamed, or emptied first and then filled.
        File.Delete(file);
        File.WriteAllText(folder.At("new"), NoNodes + "regoin: GB\n");
        File.Move(folder.At("new"), file);
        Assert.EndsWith("\n1 came, 0 went; could not read 1 file as a network: 2 errors", watcher.Until(" came, "), StringComparison.Ordinal);
        Assert.Equal((0, ""), watcher.Stop("TERM"));
    }

    [Fact]
    public void A_folder_is_watched_with_new_manifests_includes_and_its_own_file()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", "radiolint: 1\nnetwork: a\ninclude: [more.yaml]\nnodes: { hall: { board: esp32 } }\n");
        using var watcher = new Watcher(folder.Path, "--rule", "RL1001=silent");
        Assert.Contains("RL8008", watcher.Until("checked 1 network"), StringComparison.Ordinal);

        folder.Write("more.yaml", "payloadz: {}\n");
        var included = watcher.Until(" came, ");
        Assert.Contains("more.yaml:1:1: error RL8003", included, StringComparison.Ordinal);
        Assert.Contains("gone: a.radio.yaml:3:11: error RL8008", included, StringComparison.Ordinal);

        folder.Write("below/b.radio.yaml", NoNodes);
        Assert.Contains("below/b.radio.yaml:1:1: error RL8014", watcher.Until("1 came, 0 went"), StringComparison.Ordinal);

        folder.Write(".radiolint.yaml", "rules: { RL8014: silent }\n");
        Assert.StartsWith("gone: below/b.radio.yaml:1:1: error RL8014", watcher.Until("0 came, 1 went"), StringComparison.Ordinal);

        File.Delete(folder.At("more.yaml"));
        Assert.Contains("RL8008", watcher.Until("1 came, 1 went"), StringComparison.Ordinal);
        Assert.Equal(1, watcher.Stop().Status);
    }

    [Fact]
    public void What_cannot_be_read_at_the_end_is_status_2()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("x.radio.yaml", NoNodes);
        using var watcher = new Watcher(folder.Path, "x.radio.yaml");
        watcher.Until("could not read");
        File.Delete(file);
        watcher.Note("cannot read");
        Assert.Equal((2, ""), watcher.Stop());
    }

    [Fact]
    public void What_is_not_there_at_the_start_is_not_waited_for()
    {
        using var folder = new TemporaryFolder();
        var run = CommandRun.Of(folder.Path, "check", "--watch", "gone.radio.yaml");
        Assert.Equal((ExitStatus.NotDone, "radiolint: cannot read `gone.radio.yaml`: there is no such file or folder\n"), (run.Status, run.Notes));
    }

    [Theory]
    [InlineData("--format", "json", "`--watch` tells differences, so it goes with `--format text` only")]
    [InlineData("--fix", null, "`--watch` only looks, so it does not go with `--fix`")]
    [InlineData("--adopt", null, "`--watch` only looks, so it does not go with `--adopt`")]
    [InlineData("--show-effective", null, "`--watch` only looks, so it does not go with `--show-effective`")]
    [InlineData("-", null, "`--watch` looks at files, and standard input is none; name a file or a folder")]
    public void Goes_only_with_what_looks(string option, string? value, string refusal)
    {
        using var folder = new TemporaryFolder();
        string[] args = value is null ? ["check", "--watch", option] : ["check", "--watch", option, value];
        var run = CommandRun.Of(folder.Path, args);
        Assert.Equal((ExitStatus.NotDone, $"radiolint: {refusal}\n"), (run.Status, run.Notes));
    }
}
