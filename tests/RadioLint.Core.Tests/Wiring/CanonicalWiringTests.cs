using System.Collections.Immutable;
using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Wiring;

/// <summary>
/// The customary SPI pins of every board, and further sets, as its data sheet has them (facts/canonical-wiring.csv, a source in each row): the profiles
/// agree, and wired so nothing is found but what facts/canonical-findings.csv lists with reasons. Wirings known as wrong are rejected.
/// </summary>
public sealed class CanonicalWiringTests
{
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Table = FactTable.Read("canonical-wiring.csv");
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Expected = FactTable.Read("canonical-findings.csv");
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Wrong = FactTable.Read("wrong-wirings.csv");

    public static TheoryData<string> Rows() => [.. Table.Select(NameOf)];

    public static TheoryData<string> Boards() => [.. Table.Where(IsCustomary).Select(row => row["board"])];

    public static TheoryData<string, string> WrongOnes() => [.. Wrong.Select(row => (row["board"], row["node"]))];

    [Fact]
    public void The_table_has_each_shipped_board_once() =>
        Assert.Equal(ShippedBoards.Names, Table.Where(IsCustomary).Select(row => row["board"]).Order(StringComparer.Ordinal));

    [Fact]
    public void Every_row_has_a_source_and_every_exception_a_row_and_a_reason()
    {
        Assert.All(Table, row => Assert.True(row["source"].Length > 0 && row["basis"].Length > 0, NameOf(row)));
        Assert.All(Expected, row => Assert.Contains(NameOf(row), Table.Select(NameOf)));
        Assert.All(Expected.Concat(Wrong), row => Assert.True(row["reason"].Length > 0, row["board"]));
        Assert.Equal(Table.Count, Table.Select(NameOf).Distinct(StringComparer.Ordinal).Count());
    }

    [Theory, MemberData(nameof(Boards))]
    public void The_profile_agrees_with_the_table(string name)
    {
        var row = Table.Single(one => IsCustomary(one) && one["board"] == name);
        var wiring = ShippedBoards.Find(name)!.Wiring!;
        Assert.Equal(
            new[] { row["sck"], row["mosi"], row["miso"], row["ss"], row["csn"], row["ce"], row["irq"] },
            new[] { wiring.Sck, wiring.Mosi, wiring.Miso, wiring.Ss ?? "", wiring.Csn, wiring.Ce, wiring.Irq ?? "" });
    }

    [Theory, MemberData(nameof(Rows))]
    public void Pins_are_printed_as_the_table_says(string name)
    {
        var row = Table.Single(one => NameOf(one) == name);
        foreach (var signal in new[] { "sck", "mosi", "miso", "ss" })
        {
            if (row[signal].Length == 0)
                continue;
            var pin = ShippedBoards.Find(row["board"])!.Port(row[signal]);
            Assert.NotNull(pin);
            if (row[signal + "-printed"] is { Length: > 0 } printed)
                Assert.Contains(printed, pin.Labels.Concat(pin.OtherLabels));
        }
    }

    // Levels (RL13) depend on the supply, not on the pins, and are tested on their own.
    [Theory, MemberData(nameof(Rows))]
    public void Wired_so_nothing_is_found_above_info_but_what_is_listed(string name)
    {
        var row = Table.Single(one => NameOf(one) == name);
        var irq = row["irq"].Length == 0 ? "" : $", irq: {row["irq"]}";
        var pins = $"ce: {row["ce"]}, csn: {row["csn"]}{irq}, sck: {row["sck"]}, mosi: {row["mosi"]}, miso: {row["miso"]}";
        AssertListed(row, Check(row["board"], $"pins: {{ {pins} }}"));
        // What is customary need not be written.
        if (IsCustomary(row))
            AssertListed(row, Check(row["board"], $"pins: {{ ce: {row["ce"]}, csn: {row["csn"]}{irq} }}"));
    }

    private static void AssertListed(IReadOnlyDictionary<string, string> row, ImmutableArray<Finding> findings)
    {
        var expected = Expected.Where(one => NameOf(one) == NameOf(row)).SelectMany(one => one["signals"].Split(' ').Select(_ => one["rule"]));
        Assert.Equal(
            expected.Order(StringComparer.Ordinal),
            findings.Where(finding => finding.Severity > Severity.Info).Select(finding => finding.Rule.Id)
                .Where(id => id.StartsWith("RL1", StringComparison.Ordinal) && !id.StartsWith("RL13", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
    }

    [Theory, MemberData(nameof(WrongOnes))]
    public void Wrong_wirings_are_rejected_at_their_pins(string board, string node)
    {
        var rows = Wrong.Where(row => row["board"] == board && row["node"] == node).ToList();
        var row = Assert.Single(rows);
        var found = Check(board, node).Where(finding => finding.Rule.Id == row["rule"]).ToList();
        Assert.Equal(
            string.Join(" ", row["at"].StartsWith("pin ", StringComparison.Ordinal) ? [row["at"]] : row["at"].Split(' ')),
            string.Join(" ", found.Select(finding => finding.Place.Text)));
        Assert.All(found, finding => Assert.Equal(row["severity"], finding.Severity.ToString().ToLowerInvariant()));
    }

    private static bool IsCustomary(IReadOnlyDictionary<string, string> row) => row["group"] == "customary";

    private static string NameOf(IReadOnlyDictionary<string, string> row) => $"{row["board"]} {row["spi"]}";

    private static ImmutableArray<Finding> Check(string board, string node)
    {
        var result = Linter.Check(new SourceText(
            "wiring.radio.yaml",
            $"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ channel: 74, rate: 1 Mbps }}\nnodes:\n  hall: {{ board: {board}, {node}, supply: {{ from: bench, output: 3.3 V, capacitor: 10 uF ceramic }}, wifi: none }}\n"));
        Assert.DoesNotContain(result.Findings, finding => finding.Rule.Id.StartsWith("RL80", StringComparison.Ordinal));
        return result.Findings;
    }
}
