using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Tests.Hardware;
using RadioLint.Tests.Support;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests;

/// <summary>
/// Every row of worked-examples.csv, its source beside it, is either worked out by the code as it is, held by another test, or excused
/// with a reason. Where a rule draws the line, whole manifests are checked and the line is found by trying.
/// </summary>
public sealed class WorkedExampleTests
{
    /// <summary>Rows that a test beside the code in question reads by their ID.</summary>
    private static readonly string[] Elsewhere = ["REG-08", "REG-11", "REG-12", "REG-14a", "REG-14b", "REG-14c", "COEX-01", "COEX-04", "COEX-05", "COEX-06", "COEX-08", "MAC-16",
        "PWR-01", "PWR-02", "PWR-03", "PWR-04", "PWR-05", "PWR-06", "PWR-07", "PWR-08", "PWR-09", "PWR-10", "PWR-11", "PWR-12", "SAFE-06"];

    private static readonly (string Row, string Reason)[] OutOfReach =
    [
        ("REG-02", "the level of stray emission is published for the reader; no rule computes emission outside the band"),
        ("REG-04", "field strength: limits are kept as EIRP"),
        ("REG-05", "RangeExampleTests works the average out; its peak is held by EirpFacts"),
        ("REG-06b", "one limit a region, that of a signal 1 MHz wide"),
        ("REG-09", "listening before sending: the radio cannot"),
        ("REG-10", "medium utilisation needs traffic, which is not judged"),
        ("REG-15", "stray emission is not computed"),
        ("REG-16", "stray emission is not computed; RL3002 refuses the channel whatever the excess"),
        ("REG-17", "the limits are those of 15.249"),
        ("REG-19", "stray emission is not computed"),
        ("COEX-07", "collisions with Bluetooth are not computed"),
        ("COEX-09", "ovens are not judged"),
        ("PROP-", "RangeExampleTests works them out, or says why not"),
        ("LINK-", "RangeExampleTests works them out, or says why not"),
        ("MAC-03", "RangeExampleTests"), ("MAC-05", "RangeExampleTests"), ("MAC-07", "RangeExampleTests"), ("MAC-09", "RangeExampleTests"), ("MAC-15", "RangeExampleTests"),
        ("MAC-04", "senders have no common slots"), ("MAC-11", "senders have no common slots"), ("MAC-12", "senders have no common slots"),
        ("MAC-13", "senders have no common slots"),
        ("MAC-06", "that some pair meets is not judged: each packet's own chance is"), ("MAC-08", "MAC-05 turned round"),
        ("MAC-14", "what all repetitions together leave is not judged: losses in a row are no chance of their own"),
        ("MAC-10", "FalsePacketFacts works them out"), ("ADDR-", "FalsePacketFacts works them out"),
        ("CRC-01", "goes into CRC-03"), ("CRC-03", "CheckSumTests works it out"),
        ("CRC-02", "2 bytes guard the longest packet: RL5203 has nothing to say"),
        ("CRC-04", "shares of error patterns are not computed"), ("CRC-05", "shares of error patterns are not computed"), ("CRC-06", "shares of error patterns are not computed"),
        ("CRC-07", "computed by the chip while it sends"), ("CRC-08", "shares of error patterns are not computed"),
        ("SAFE-", "exposure, mismatch and dividers are not computed; RL2007 refuses a divider whatever its ratio"),
    ];

    [Fact]
    public void Every_row_agrees_or_is_held_elsewhere_or_excused()
    {
        var (agreed, elsewhere, excused) = (0, 0, 0);
        foreach (var row in Published.Rows("worked-examples.csv"))
        {
            if (Elsewhere.Contains(row["id"]))
            {
                elsewhere++;
            }
            else if (OutOfReach.Any(one => row["id"].StartsWith(one.Row, StringComparison.Ordinal)))
            {
                excused++;
            }
            else
            {
                Assert.True(Agrees(row), $"{row["id"]} {row["quantity"]}: expected {row["result"]} {row["unit"]} ({row["source"]})");
                agreed++;
            }
        }
        Assert.Equal((17, 25, 114), (agreed, elsewhere, excused));
    }

    // Own arithmetic on figures of data sheets, each named in its row: the least figure that a rule lets pass.
    [Fact]
    public void Supplies_pass_from_the_worked_figure_up()
    {
        var rows = Published.Rows("supply-examples.csv");
        foreach (var row in rows)
        {
            var figure = int.Parse(row["result"], CultureInfo.InvariantCulture);
            Assert.False(IsFound(row, figure), $"{row["id"]}: {figure} {row["unit"]} suffices ({row["source"]})");
            Assert.True(IsFound(row, figure - 1), $"{row["id"]}: {figure - 1} {row["unit"]} does not suffice ({row["source"]})");
        }
        Assert.Equal(11, rows.Count);
    }

    private static bool Agrees(PublishedRow row) => row["id"] switch
    {
        "REG-01" => Near(row, Bands.For("US").Average!.Value),
        "REG-03" => Near(row, Bands.For("US").Limit),
        "REG-06a" => Near(row, Bands.For("GB").Limit),
        "REG-07" => Found("GB", 74, "1 Mbps", "radio: { part: nRF24L01+, front-end: E01-ML01DP5, antenna: { kind: external, gain: 2 dBi, cable: 0.5 dB } }")
            .Any(finding => finding.Rule.Id == "RL3101" && finding.Message.Contains($", {row["result"]} dB above the limit of GB, ", StringComparison.Ordinal)),
        "REG-13a" => row["result"] == Ends(InsideBand("1 Mbps")),
        "REG-13b" => row["result"] == Ends(InsideBand("2 Mbps")),
        "REG-18" => row.Number("result") == Enumerable.Range(0, 126).Count(number => Carrier(number) >= Published.Numbers(row.Input("first_mhz")).Single()),
        // Too strong without credit for pauses: warned of; enough margin: not.
        "REG-20a" => row.Number("result") < 0 && IsTooClose(row, "2 Mbps"),
        "REG-20b" => row.Number("result") > 0 && !IsTooClose(row, "2 Mbps"),
        "REG-20c" => row.Number("result") > 0 && !IsTooClose(row, "1 Mbps"),
        "COEX-02" or "COEX-03" => row["steps"].Contains("left: " + Runs(ClearOfWifi(row)), StringComparison.Ordinal) && row.Number("result") == ClearOfWifi(row).Count,
        "COEX-10" => row["result"] == Runs(ClearOfAll()),
        "MAC-01a" => row.Number("result") == Microseconds(OnAir.Packet(DataRate.Kbps250, 5, 32, 2)),
        "MAC-01b" => row.Number("result") == Microseconds(OnAir.Packet(DataRate.Mbps1, 5, 32, 2)),
        "MAC-01c" => row.Number("result") == Microseconds(OnAir.Packet(DataRate.Mbps2, 5, 32, 2)),
        "MAC-02" => row.Number("result") == Microseconds(OnAir.Packet(DataRate.Mbps1, 5, 32, 2) + OnAir.AcknowledgeArrives(DataRate.Mbps1, 5, 2, 0)),
        _ => false,
    };

    // Tolerances of the table are "abs 0.01" of a level.
    private static bool Near(PublishedRow row, PowerLevel level) => Math.Abs(row.Number("result") - (level.Centi / 100m)) <= row.Number("tolerance");

    private static List<int> InsideBand(string rate) =>
        [.. Enumerable.Range(0, 126).Where(number => !Found("GB", number, rate).Any(finding => finding.Rule.Id is "RL3002"))];

    private static bool IsTooClose(PublishedRow row, string rate) =>
        Found("US", (int)Published.Numbers(row.Input("n")).Single(), rate).Any(finding => finding.Rule.Id == "RL3003");

    private static List<int> ClearOfWifi(PublishedRow row) => ClearOfWifi(row.Input("plan"), (int)Published.Numbers(row.Input("n_max")).Single());

    private static List<int> ClearOfWifi(string plan, int last) =>
        [.. Enumerable.Range(1, last).Where(number => !Found("GB", number, "1 Mbps", air: $", neighbours: {{ wifi: [{plan}] }}").Any(finding => finding.Rule.Id == "RL3201"))];

    // No rule judges IEEE 802.15.4 neighbours: the plans of these two alone are asked.
    private static List<int> ClearOfAll()
    {
        var part = RadioParts.Find("nRF24L01+")!;
        var others = Enumerable.Range(11, 16).Select(channel => NeighbourPlans.Ieee802154.Occupied(channel)!.Value)
            .Concat(NeighbourPlans.BluetoothLe.Advertising.Select(NeighbourPlans.BluetoothLe.Occupied)).ToList();
        return [.. ClearOfWifi("1, 6, 11", 82).Where(number => others.TrueForAll(
            other => NeighbourPlans.Overlap(Emission.Around(part.Channel.Carrier(number), part.Rate(DataRate.Mbps1)!.Width.Value, new(0)), other) is null))];
    }

    private static bool IsFound(PublishedRow row, int figure)
    {
        var inputs = row.Split("inputs").Select(part => part.Split('=', 2)).ToDictionary(part => part[0], part => part[1], StringComparer.Ordinal);
        var rule = inputs["rule"].Split(' ');
        var unit = row["unit"] == "mV" ? "V" : "mA";
        var supply = inputs["supply"].Replace("#", string.Create(CultureInfo.InvariantCulture, $"{figure / 1_000m} {unit}"), StringComparison.Ordinal);
        var radio = inputs.TryGetValue("radio", out var text) ? $", radio: {{ {text} }}" : "";
        return Found("GB", 74, inputs.GetValueOrDefault("rate", "1 Mbps"), $"supply: {{ {supply}, capacitor: 10 uF ceramic }}{radio}")
            .Any(finding => finding.Rule.Id == rule[0] && (rule.Length == 1 || finding.Severity is Severity.Error));
    }

    private static ImmutableArray<Finding> Found(string region, int channel, string rate, string node = "wifi: none", string air = "") => Linter.Check(new SourceText(
        "worked.radio.yaml",
        $"radiolint: 1\nnetwork: cellar\nregion: {region}\nair: {{ channel: {channel}, rate: {rate}{air} }}\nnodes:\n  hall: {{ board: atmega328p, pins: {{ ce: D9, csn: D10 }}, {node} }}\n")).Findings;

    private static decimal Carrier(int number) => Ours.Megahertz(RadioParts.Find("nRF24L01+")!.Channel.Carrier(number));

    private static decimal Microseconds(Duration time) => time.Nanoseconds / 1_000m;

    private static string Ends(List<int> channels)
    {
        Assert.Equal(channels.Count, channels[^1] - channels[0] + 1);
        return $"{channels[0]}..{channels[^1]}";
    }

    // 1, 2, 3, 7 as "1-3 7".
    private static string Runs(List<int> channels) => string.Join(' ', channels.Select((channel, index) => (channel, Run: channel - index))
        .GroupBy(pair => pair.Run, pair => pair.channel).Select(run => run.First() == run.Last() ? $"{run.First()}" : $"{run.First()}-{run.Last()}"));
}
