using System.Globalization;
using System.Text;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>`fill` takes the channel that a survey found quiet, where there is a survey.</summary>
public sealed class FillSurveyTests
{
    private const string Open = """
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: open, rate: 1 Mbps }
        survey: heard.csv
        nodes:
          hall: { board: esp32, supply: { from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }, wires: 5 cm, wifi: none, pins: { ce: GPIO27, csn: GPIO5 } }
          cellar: { board: atmega328p, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, wires: 5 cm, pins: { ce: D9, csn: D10 } }
        links:
          - { from: cellar, to: hall, payload: reading, every: 1 min }
        payloads:
          reading: { temperature: int16 0.1 degC, sequence: uint8 }

        """;

    [Theory]
    [InlineData(20, 30)]
    [InlineData(60, 70)]
    public void The_quiet_stretch_is_taken(int first, int last)
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        folder.Write("heard.csv", Log(first, last));
        var named = CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--dry-run");
        Assert.Equal(0, (int)named.Status);
        Assert.InRange(Chosen(named.Notes), first, last);
        Assert.Contains("by the survey", named.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_of_the_command_line_takes_the_place_of_those_that_the_manifest_names()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        folder.Write("heard.csv", Log(20, 30));
        folder.Write("later.csv", Log(60, 70));
        Assert.InRange(Chosen(CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--dry-run", "--survey", "later.csv").Notes), 60, 70);
    }

    [Fact]
    public void A_log_that_the_manifest_names_may_be_elsewhere()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--dry-run");
        Assert.Equal(0, (int)run.Status);
        Assert.Contains("radiolint: there is no `heard.csv`, which a.radio.yaml:5:9 names; channels are chosen without it\n", run.Notes, StringComparison.Ordinal);
        Assert.DoesNotContain("by the survey", run.Notes, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("gone.csv", "radiolint: cannot read `gone.csv`: there is no such file or folder")]
    [InlineData("a.radio.yaml", "radiolint: no sweep is in `a.radio.yaml`; see docs/survey.md for the forms that are read")]
    public void A_log_that_is_asked_for_must_be_there(string log, string said)
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--survey", log);
        Assert.Equal(2, (int)run.Status);
        Assert.Equal(said + "\n", run.Notes);
        Assert.Equal(Open, File.ReadAllText(folder.At("a.radio.yaml")));
    }

    private static int Chosen(string notes) => int.Parse(
        notes.Split('\n').First(line => line.StartsWith("air.channel: ", StringComparison.Ordinal)).Split(' ')[1], CultureInfo.InvariantCulture);

    // A tenth of all samples is busy but for a stretch that is quiet.
    private static string Log(int first, int last)
    {
        var text = new StringBuilder("time,place");
        for (var channel = 0; channel < 126; channel++)
            text.Append(CultureInfo.InvariantCulture, $",{2400 + channel} MHz");
        text.Append('\n');
        for (var second = 0; second < 600; second++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{second},hall");
            for (var channel = 0; channel < 126; channel++)
                text.Append((channel < first || channel > last) && (second + (7 * channel)) % 10 == 0 ? ",-50" : ",-95");
            text.Append('\n');
        }
        return text.ToString();
    }
}
