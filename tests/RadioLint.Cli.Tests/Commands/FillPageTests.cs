using System.Text.RegularExpressions;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>docs/fill.md shows what `fill` says of the apiary. RADIOLINT_REWRITE=1 writes it anew.</summary>
public sealed partial class FillPageTests
{
    private static string Page => Path.Combine(Repository.Root, "docs", "fill.md");

    [Fact]
    public void The_page_shows_what_fill_says()
    {
        using var folder = new TemporaryFolder();
        var apiary = File.ReadAllText(Repository.Apiary);
        var opened = Pins().Replace(Channel().Replace(apiary, "  channel: open                     ", 1), "", 1);
        Assert.NotEqual(apiary.Length, opened.Length);
        folder.Write("larkfield-apiary.radio.yaml", opened);
        const string Survey = "shed-2026-05-02.survey.csv";
        folder.Write(Survey, File.ReadAllText(Path.Combine(Path.GetDirectoryName(Repository.Apiary)!, Survey)));
        var run = CommandRun.Of(folder.Path, "fill", "larkfield-apiary.radio.yaml", "--dry-run");
        Assert.Equal(0, (int)run.Status);
        var page = File.ReadAllText(Page);
        var told = With(With(page, "```diff\n", run.Results), "and says on standard error:\n```text\n", run.Notes);
        if (Snapshot.IsRewriting(Environment.GetEnvironmentVariable))
            File.WriteAllText(Page, told);
        else
            Assert.Equal(page, told);
    }

    private static string With(string page, string head, string text)
    {
        var start = page.IndexOf(head, StringComparison.Ordinal) + head.Length;
        return page[..start] + text + page[page.IndexOf("```", start, StringComparison.Ordinal)..];
    }

    [GeneratedRegex("  channel: 74 +")]
    private static partial Regex Channel();

    [GeneratedRegex("    pins: [{] ce: D9, csn: D10 [}]\n")]
    private static partial Regex Pins();
}
