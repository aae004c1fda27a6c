using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Cli.Tests.Support;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Cli.Tests.Output;

/// <summary>The two forms of one outcome that has everything: each severity, related places in another file, fixes, odd characters.</summary>
public sealed class ReportTests
{
    private static readonly SourceText Shed = new(
        "site/shed.radio.yaml",
        "network: larkfield\nair:\n  channel: 83\n\tplace: \"Bienenhaus 巣箱 \u202e\u001b[31m\" \nlinks: [ { from: hive, to: shed, payload: reading, every: 10 min, jitter: 20 s, distance: 20..40 m, through: vegetation 4 m } ]\n");

    private static readonly SourceText Order = new("site/order.yaml", "payloads:\n  order: { interval: uint16 s }\n");

    [Fact]
    public void Text() => Snapshot.Matches("report-text", AsText(Paint.None, null));

    [Fact]
    public void Text_on_a_narrow_terminal() => Snapshot.Matches("report-terminal", AsText(new(true), 60).Replace("\u001b", "<ESC>", StringComparison.Ordinal));

    [Fact]
    public void Json() => Snapshot.Matches("report-json", AsJson().Replace($"\"radiolint\": \"{ProductVersion.Text}\"", "\"radiolint\": \"#\"", StringComparison.Ordinal));

    [Fact]
    public void First_lines_and_notes_have_the_GNU_form_and_nothing_else_does()
    {
        var located = AsText(Paint.None, null).Split('\n').Where(line => line.StartsWith("site/", StringComparison.Ordinal)).ToList();
        Assert.Equal(4, located.Count);
        Assert.All(located, line => Assert.Matches("^[^: ]+:[0-9]+:[0-9]+: ((error|warning|info) RL[0-9]{4}|note): [^ ].*[^.]$", line));
    }

    [Fact]
    public void No_text_of_a_file_steers_the_terminal()
    {
        var text = AsText(Paint.None, null);
        Assert.DoesNotContain('\u001b', text);
        Assert.DoesNotContain('\u202e', text);
    }

    [Fact]
    public void Json_is_the_same_finding_for_finding()
    {
        using var json = JsonDocument.Parse(AsJson());
        var findings = json.RootElement.GetProperty("findings").EnumerateArray().ToList();
        Assert.Equal(Outcome.Findings.Select(finding => finding.Message), findings.Select(finding => finding.GetProperty("message").GetString()));
        foreach (var (written, finding) in findings.Zip(Outcome.Findings))
        {
            Assert.Equal(finding.Place.From, new(written.GetProperty("line").GetInt32(), written.GetProperty("column").GetInt32()));
            Assert.Equal(finding.Place.To, new(written.GetProperty("endLine").GetInt32(), written.GetProperty("endColumn").GetInt32()));
        }
    }

    [Fact]
    public void Every_member_is_documented_and_every_documented_member_is_written()
    {
        using var written = JsonDocument.Parse(AsJson());
        var page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "json-output.md"));
        using var shown = JsonDocument.Parse(page.Split("```json\n")[1].Split("```")[0]);
        Assert.All(Members(written.RootElement), name => Assert.Contains($"`{name}`", page, StringComparison.Ordinal));
        Assert.All(Members(shown.RootElement), name => Assert.Contains(name, Members(written.RootElement)));
    }

    private static IEnumerable<string> Members(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(member => Members(member.Value).Prepend(member.Name)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Members),
        _ => [],
    };

    private static string AsText(Paint paint, int? width)
    {
        var writer = new StringWriter { NewLine = "\n" };
        var report = new TextReport(writer, paint, width);
        foreach (var finding in Outcome.Findings)
            report.Write(finding);
        report.WriteSummary(Outcome);
        return writer.ToString();
    }

    private static string AsJson()
    {
        using var stream = new MemoryStream();
        JsonReport.Write(stream, Outcome);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static CheckOutcome Outcome { get; } = new(
        ImmutableArray.Create(
            new Finding(new("RL0001", Severity.Error, "First", "2400.0 MHz to 2483.5 MHz", "0.1"), At(Shed, "83"),
                "channel 83 at 2 Mbps reaches 0.6 MHz above the band of GB (2400.0 MHz to 2483.5 MHz)", "use channel 80, the nearest that stays inside; the rules of the place of use govern")
            {
                Fixes = ImmutableArray.Create(new Fix(FixGrade.Offered, "Use channel 80", ImmutableArray.Create(new Edit(At(Shed, "83"), "80")))),
            },
            new Finding(new("RL0002", Severity.Warning, "Second", "own rule", "0.1"), At(Shed, "\"Bienenhaus 巣箱 \u202e\u001b[31m\""),
                "the place \u001b[31m has a name that `hive` cannot show", "write it with letters"),
            new Finding(new("RL0003", Severity.Info, "Third", "own rule", "0.1"), At(Shed, "jitter: 20 s"), "the link `hive` to `shed` differs at its ends", "make them equal")
            {
                Related = ImmutableArray.Create(new RelatedPlace(At(Order, "interval"), "the other end is stated here")),
                Fixes = ImmutableArray.Create(new Fix(FixGrade.Safe, "Write `10 s`", ImmutableArray.Create(new Edit(At(Shed, "20 s"), "10 s"), new Edit(At(Order, "uint16 s"), "uint16 ms")))),
            }),
        new(2, 7, 1, 9),
        Unreadable: 1,
        ImmutableArray.Create(new Unread("site/gone", "there is no such file or folder")));

    private static Place At(SourceText source, string text) => new(source, source.Text.IndexOf(text, StringComparison.Ordinal), text.Length);
}
