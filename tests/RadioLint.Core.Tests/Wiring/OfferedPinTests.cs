using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Wiring;

/// <summary>What the boot and bus rules offer mends what it is offered for, and breaks no other rule of wiring.</summary>
public sealed class OfferedPinTests
{
    private static readonly string[] Offering = ["RL1101", "RL1102", "RL1103", "RL1104", "RL1201", "RL1205"];

    // Its other pins are taken, straps, or cannot interrupt; or nodes of another board share the line.
    private static bool HasNothingFree(string file) => file is "RL1101/irq.radio.yaml" or "RL1103/shared-with-another-board.radio.yaml" || file.Contains("/no-pin-left", StringComparison.Ordinal);

    public static TheoryData<string> Files() =>
        [.. Fixtures.All().Where(file => Offering.Contains(file[..6]) && Fixtures.MarksOf(file).Any(mark => mark.Id == file[..6]))];

    [Theory, MemberData(nameof(Files))]
    public void What_was_wrong_is_gone(string file)
    {
        var text = File.ReadAllText(Path.Combine(Fixtures.Rules, file));
        var before = Check(text);
        foreach (var finding in before.Where(finding => finding.Rule.Id == file[..6]))
        {
            Assert.Equal(HasNothingFree(file), finding.Fixes.IsEmpty);
            foreach (var fix in finding.Fixes)
                Mends(text, before, finding, fix);
        }
    }

    [Theory]
    [InlineData("csn: GPIO10", "csn: { pin: GPIO10, pull-up: 10 kohm }")]
    [InlineData("csn: 'GPIO10'", "csn: { pin: 'GPIO10', pull-up: 10 kohm }")]
    [InlineData("csn: { pin: GPIO10 }", "csn: { pin: GPIO10, pull-up: 10 kohm }")]
    public void A_pull_up_on_csn_in_yaml(string csn, string expected) => PullUp(
        $"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ channel: 74, rate: 1 Mbps }}\nnodes:\n  hall: {{ board: esp32c3, wifi: none, pins: {{ ce: GPIO4, {csn} }} }}\n", expected);

    [Fact]
    public void A_pull_up_on_csn_in_block_style() => PullUp(
        "radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n  hall:\n    board: esp32c3\n    wifi: none\n    pins:\n      ce: GPIO4\n      csn:\n        pin: GPIO10 # marked\n",
        "        pin: GPIO10 # marked\n        pull-up: 10 kohm\n");

    [Theory]
    [InlineData("""  "csn": "GPIO10" """, """  "csn": { "pin": "GPIO10", "pull-up": "10 kohm" } """)]
    [InlineData("""  "csn": { "pin": "GPIO10" } """, """  "csn": { "pin": "GPIO10", "pull-up": "10 kohm" } """)]
    public void A_pull_up_on_csn_in_json(string csn, string expected) => PullUp(
        """{ "radiolint": 1, "network": "cellar", "region": "GB", "air": { "channel": 74, "rate": "1 Mbps" }, "nodes": { "hall": { "board": "esp32c3", "wifi": "none", "pins": { "ce": "GPIO4", """ + csn + " } } } }",
        expected);

    // A pull-up there would block serial download (ESP32 Series Datasheet 4.2, table 5), so only the other pin is offered for MISO.
    [Fact]
    public void No_pull_up_is_offered_where_it_would_do_harm() => Assert.StartsWith("Use ", Assert.Single(Assert.Single(
        Check("radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n  hall: { board: esp32, wifi: none, pins: { ce: GPIO4, csn: GPIO2, miso: GPIO12 } }\n"),
        finding => finding.Rule.Id == "RL1104").Fixes).Title, StringComparison.Ordinal);

    private static void PullUp(string text, string expected)
    {
        var before = Check(text);
        var finding = Assert.Single(before, one => one.Rule.Id == "RL1104");
        var fix = Assert.Single(finding.Fixes);
        Assert.Contains(expected, Mends(text, before, finding, fix), StringComparison.Ordinal);
    }

    private static string Mends(string text, IEnumerable<Finding> before, Finding finding, Fix fix)
    {
        var mended = text;
        foreach (var edit in fix.Edits.OrderByDescending(edit => edit.Place.Start))
            mended = mended[..edit.Place.Start] + edit.NewText + mended[edit.Place.End..];
        var left = Check(mended);
        Assert.DoesNotContain(left, other => other.Rule.Id == finding.Rule.Id && other.Message == finding.Message);
        // Syntax and wiring: nothing that was not there before.
        var known = before.Select(other => other.Rule.Id).ToHashSet(StringComparer.Ordinal);
        Assert.DoesNotContain(left, other => (other.Rule.Id.StartsWith("RL80", StringComparison.Ordinal) || other.Rule.Id[2] == '1') && !known.Contains(other.Rule.Id));
        return mended;
    }

    private static System.Collections.Immutable.ImmutableArray<Finding> Check(string text) => Linter.Check(new SourceText("fix.radio.yaml", text)).Findings;
}
