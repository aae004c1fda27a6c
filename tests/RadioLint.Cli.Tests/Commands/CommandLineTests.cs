using System.Text.RegularExpressions;
using RadioLint.Cli.Commands;
using RadioLint.Cli.Terminal;
using RadioLint.Cli.Tests.Support;
using RadioLint.Rules;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

public sealed partial class CommandLineTests
{
    public static TheoryData<string> Verbs => ["start", "survey", "fill", "check", "emit", "readback", "explain", "schema"];

    [Fact]
    public void Help() => Snapshot.Matches("help", CommandRun.Of(Repository.Root, "--help").ToString());

    [Theory, MemberData(nameof(Verbs))]
    public void Help_of(string verb) => Snapshot.Matches($"help-{verb}", CommandRun.Of(Repository.Root, verb, "--help").ToString());

    [Theory, MemberData(nameof(Verbs))]
    public void Help_fits_a_terminal_and_shows_an_example_first(string verb)
    {
        var lines = CommandRun.Of(Repository.Root, verb, "-h").Results.Split('\n');
        Assert.All(lines, line => Assert.True(line.Length <= 80, line));
        Assert.StartsWith($"  radiolint {verb}", lines[Array.IndexOf(lines, "To try") + 1], StringComparison.Ordinal);
    }

    [Fact]
    public void Examples_of_the_help_are_understood()
    {
        var examples = Verbs.SelectMany(verb => CommandRun.Of(Repository.Root, verb.Data, "--help").Results.Split('\n'))
            .Where(line => line.StartsWith("  radiolint ", StringComparison.Ordinal)).ToList();
        Assert.True(examples.Count > 6);
        using var folder = new TemporaryFolder();
        foreach (var example in examples)
        {
            var words = example.Split((char[])['<', '>'])[0].Split(' ', StringSplitOptions.RemoveEmptyEntries)[1..];
            var run = CommandRun.Of(folder.Path, words);
            // Their files are not here: that is all that may be said against them.
            Assert.True(run.Notes.Length == 0 || run.Notes.StartsWith("radiolint: cannot read `", StringComparison.Ordinal) || run.Notes.Contains("<stdin>", StringComparison.Ordinal), example + "\n" + run.Notes);
        }
    }

    [Theory]
    [InlineData("there is no command `chekc`; write `check`", "chekc", "x")]
    [InlineData("there is no command `frobnicate`; see `radiolint --help`", "frobnicate")]
    [InlineData("`radiolint check` has no option `--formt`; write `--format`", "check", "--formt", "json")]
    [InlineData("`radiolint` has no option `--zzz`; see `radiolint --help`", "--zzz")]
    [InlineData("`--format` takes text, json, sarif, junit, not `jsn`; write `--format json`", "check", "--format", "jsn")]
    [InlineData("`--format` takes one value: text|json|sarif|junit; see `radiolint check --help`", "check", "--format")]
    [InlineData("`--format` takes one value: text|json|sarif|junit; see `radiolint check --help`", "check", "--format", "text", "--format", "json")]
    [InlineData("`--fail-on` takes error, warning, info, none, not `x`", "check", "--fail-on", "x")]
    [InlineData("`--today` takes a day such as 2026-05-02, not `2.5.2026`", "check", "--today", "2.5.2026")]
    [InlineData("there is no rule `RL0`; see `radiolint explain` for all rules", "check", "--rule", "RL0=error")]
    [InlineData("there is no rule `RL3O01`; the nearest is RL3001: Channel that the chip cannot tune", "explain", "RL3O01")]
    [InlineData("`--rule` takes a severity such as RL3001=warning, not `RL3001=bad`; write error, warning, info or silent after the `=`", "check", "--rule", "RL3001=bad")]
    [InlineData("RL8001 cannot be given another severity: what it finds keeps the manifest from being read as meant", "check", "--rule", "RL8001=info")]
    [InlineData("`radiolint emit` needs FILE; see `radiolint emit --help`", "emit")]
    [InlineData("`radiolint emit` has no use for `b`; see `radiolint emit --help`", "emit", "a", "b")]
    [InlineData("`radiolint emit` needs a folder for the headers; add `--out DIR`", "emit", "a")]
    [InlineData("no command is given; see `radiolint --help`", "--debug")]
    [InlineData("cannot read `-x.radio.yaml`: there is no such file or folder", "check", "--", "-x.radio.yaml")]
    [InlineData("cannot read `@all`: there is no such file or folder", "check", "@all")]
    public void A_line_that_cannot_be_carried_out_is_refused_in_one_line(string note, params string[] args)
    {
        using var folder = new TemporaryFolder();
        var run = CommandRun.Of(folder.Path, args);
        Assert.Equal((ExitStatus.NotDone, "", $"radiolint: {note}\n"), (run.Status, run.Results, run.Notes));
    }

    [Fact]
    public void Nothing_asked_shows_the_help_as_a_note()
    {
        var run = CommandRun.Of(Repository.Root);
        Assert.Equal((ExitStatus.NotDone, ""), (run.Status, run.Results));
        Assert.Equal(CommandRun.Of(Repository.Root, "--help").Results, run.Notes);
    }

    [Fact]
    public void The_version_is_that_of_the_build() => Assert.Equal(
        $"radiolint {typeof(Verb).Assembly.GetName().Version!.ToString(3)}\n", CommandRun.Of(Repository.Root, "--version").Results);

    [Fact]
    public void Explain_lists_all_rules_and_sets_each_page_in_80_columns()
    {
        var list = CommandRun.Of(Repository.Root, "explain").Results;
        Assert.Equal(Catalogue.All.Select(rule => rule.Id), list.TrimEnd('\n').Split('\n').Select(line => line[..6]));
        var page = CommandRun.Of(Repository.Root, "explain", "3001").Results;
        Assert.StartsWith("RL3001: Channel that the chip cannot tune\n\n  Severity: error. Since 0.1.\n\nWhat\n  ", page, StringComparison.Ordinal);
        // Examples are left as they are; everything else is set.
        Assert.All(page.Split('\n'), line => Assert.True(line.Length <= 80 || line.StartsWith("    ", StringComparison.Ordinal), line));
        Assert.Equal(page + "\n" + page, CommandRun.Of(Repository.Root, "explain", "RL3001", "rl3001").Results);
    }

    [Fact]
    public void A_page_keeps_every_word_of_its_file()
    {
        foreach (var rule in Catalogue.All)
        {
            var shown = CommandRun.Of(Repository.Root, "explain", rule.Id).Results;
            Assert.Equal(Words(File.ReadAllText(Path.Combine(Repository.Root, "docs", "rules", rule.Id + ".md"))), Words(shown));
        }

        static string Words(string text) => string.Concat(Fence().Replace(text, "").Where(char.IsLetterOrDigit));
    }

    [Fact]
    public void A_defect_is_one_line_and_its_trace_is_shown_on_request()
    {
        Func<Surroundings, Surroundings> broken = around => around with { Today = () => throw new NotSupportedException("boom") };
        var run = CommandRun.Of(Repository.Root, broken, "check", "docs");
        Assert.Equal((ExitStatus.Defect, ""), (run.Status, run.Results));
        Assert.Matches("^radiolint: this is a defect of radiolint [0-9.]+, not of your files \\(NotSupportedException\\); report it [^\n]*\n$", run.Notes);
        run = CommandRun.Of(Repository.Root, broken, "check", "docs", "--debug");
        Assert.Contains("boom\n   at ", run.Notes, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, "xterm", true)]
    [InlineData("", "xterm", true)]
    [InlineData("1", "xterm", false)]
    [InlineData(null, "dumb", false)]
    public void Colour_is_wanted_unless_the_environment_says_no(string? noColor, string? term, bool isWanted) =>
        Assert.Equal(isWanted, Surroundings.WantsColour(name => name switch { "NO_COLOR" => noColor, "TERM" => term, _ => null }));

    [Fact]
    public void Colour_changes_nothing_but_colour()
    {
        var plain = CommandRun.Of(Repository.Root, "check", "docs/examples").Results;
        var painted = CommandRun.Of(Repository.Root, around => around with { HasColour = true }, "check", "docs/examples").Results;
        Assert.Contains('\u001b', painted);
        Assert.DoesNotContain('\u001b', plain);
        Assert.Equal(plain, System.Text.RegularExpressions.Regex.Replace(painted, "\u001b\\[[0-9;]*m", ""));
    }

    [Fact]
    public void Snapshots_are_not_rewritten_in_CI()
    {
        Assert.False(Snapshot.IsRewriting(_ => null));
        Assert.True(Snapshot.IsRewriting(name => name == "RADIOLINT_REWRITE" ? "1" : null));
        Assert.Throws<InvalidOperationException>(() => Snapshot.IsRewriting(name => name == "RADIOLINT_REWRITE" ? "1" : "true"));
    }

    [GeneratedRegex("^```[a-z]+$", RegexOptions.Multiline)]
    private static partial Regex Fence();
}
