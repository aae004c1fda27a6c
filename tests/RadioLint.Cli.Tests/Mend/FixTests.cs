using System.Diagnostics;
using System.Text;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Mend;

/// <summary>`check --fix` changes what it says and nothing else, or nothing at all.</summary>
public sealed class FixTests
{
    private static readonly string Mistakes = File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "larkfield-mistakes", "larkfield-mistakes.radio.yaml"));

    private static readonly string Apiary = File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml"));

    // A manifest without a format version is mended safely.
    private static readonly string WithoutFormat = Apiary[(Apiary.IndexOf('\n', StringComparison.Ordinal) + 1)..];

    [Fact]
    public void Safe_edits_are_made_and_told()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", WithoutFormat);
        var run = CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix");
        Assert.Equal("radiolint: a.radio.yaml: 1 edit made: RL8007 Add `radiolint: 1`\n", run.Notes);
        Assert.Equal("radiolint: 1\n" + WithoutFormat, File.ReadAllText(folder.At("a.radio.yaml")));
        Assert.Equal(["a.radio.yaml"], Directory.EnumerateFiles(folder.Path).Select(Path.GetFileName));
    }

    [Fact]
    public void A_second_time_there_is_nothing_to_do()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Mistakes);
        CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix", "--suggested");
        var once = File.ReadAllBytes(folder.At("a.radio.yaml"));
        var again = CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix", "--suggested");
        Assert.Equal("", again.Notes);
        Assert.Equal(once, File.ReadAllBytes(folder.At("a.radio.yaml")));
        Assert.NotEqual(Mistakes, Encoding.UTF8.GetString(once));
    }

    [Fact]
    public void Offered_edits_are_made_only_when_asked_for()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Mistakes);
        Assert.Equal("", CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix").Notes);
        Assert.Equal(Mistakes, File.ReadAllText(folder.At("a.radio.yaml")));
    }

    // git is the outsider: it takes the difference and must come to the same file.
    [Theory, InlineData(false), InlineData(true)]
    public void The_difference_is_one_that_git_applies(bool endsWithoutLine)
    {
        using var folder = new TemporaryFolder();
        var text = endsWithoutLine ? Mistakes.TrimEnd('\n') : Mistakes;
        folder.Write("site/a.radio.yaml", text);
        var dry = CommandRun.Of(folder.Path, "check", "site/a.radio.yaml", "--fix", "--suggested", "--dry-run");
        Assert.Equal(text, File.ReadAllText(folder.At("site/a.radio.yaml")));
        folder.Write("change.patch", dry.Results);
        folder.Write("applied/site/a.radio.yaml", text);
        Directory.Delete(folder.At(".git"));
        Git(folder.At("applied"), "apply", "--whitespace=nowarn", "-p1", folder.At("change.patch"));
        CommandRun.Of(folder.Path, "check", "site/a.radio.yaml", "--fix", "--suggested");
        Assert.Equal(File.ReadAllText(folder.At("site/a.radio.yaml")), File.ReadAllText(folder.At("applied/site/a.radio.yaml")));
    }

    [Theory, InlineData("\r\n", false), InlineData("\n", true), InlineData("\r\n", true)]
    public void Line_ends_and_byte_order_mark_stay(string end, bool mark)
    {
        using var folder = new TemporaryFolder();
        var text = Mistakes.Replace("\n", end, StringComparison.Ordinal);
        var encoding = new UTF8Encoding(mark);
        File.WriteAllText(folder.At("a.radio.yaml"), text, encoding);
        CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix", "--suggested");
        var bytes = File.ReadAllBytes(folder.At("a.radio.yaml"));
        Assert.Equal(mark, bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble));
        var now = Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF');
        Assert.Equal(text.Split(end).Length, now.Split(end).Length);
        Assert.Equal(now.Count(one => one == '\n'), now.Split(end).Length - 1);
        Assert.Contains($"  channel: 82                       # looks quiet: nobody may send there{end}", now, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_left_decides_the_exit_status()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Apiary.Replace("channel: 74", "channel: 90", StringComparison.Ordinal));
        Assert.Equal(ExitStatus.Failed, CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix", "--dry-run").Status);
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix", "--suggested", "--dry-run").Status);
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fix", "--suggested").Status);
    }

    [Theory]
    [InlineData("`--suggested` says how to mend, and nothing is to be mended; add `--fix`", "--suggested")]
    [InlineData("`--dry-run` says how to mend, and nothing is to be mended; add `--fix`", "--dry-run")]
    [InlineData("`--fix` changes files, and standard input is none; add `--dry-run` to see the difference", "--fix", "-")]
    public void What_makes_no_sense_is_refused(string note, params string[] args)
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Mistakes);
        var run = CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(Encoding.UTF8.GetBytes(Mistakes)) }, ["check", .. args.Contains("-") ? args : ["a.radio.yaml", .. args]]);
        Assert.Equal((ExitStatus.NotDone, $"radiolint: {note}\n"), (run.Status, run.Notes));
        Assert.Equal(Mistakes, File.ReadAllText(folder.At("a.radio.yaml")));
    }

    [Fact]
    public void A_file_that_is_no_network_is_left_as_it_is()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", "radiolint: 1\nnodes: [[[\n");
        Assert.Equal(ExitStatus.Failed, CommandRun.Of(folder.Path, "check", "--fix", "--suggested").Status);
        Assert.Equal("radiolint: 1\nnodes: [[[\n", File.ReadAllText(folder.At("a.radio.yaml")));
    }

    private static void Git(string folder, params string[] args)
    {
        using var git = Process.Start(new ProcessStartInfo("git", args) { WorkingDirectory = folder, RedirectStandardError = true })!;
        var said = git.StandardError.ReadToEnd();
        git.WaitForExit();
        Assert.True(git.ExitCode == 0, said);
    }
}
