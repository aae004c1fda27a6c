using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Wiring;

/// <summary>
/// Each line of the radio on each strap, against facts/straps.csv, whose rows name their documents. An `error` there is an error; `warn` and
/// `avoid` are warnings; a CSN that must not be high is an error only with a pull-up; an IRQ on a strap that must be high is a warning.
/// </summary>
public sealed class BootStrapTests
{
    private static readonly IReadOnlyList<PublishedRow> Rows = Published.Rows("straps.csv");

    public static TheoryData<string, string> Straps()
    {
        var straps = new TheoryData<string, string>();
        foreach (var row in Rows)
            straps.Add(row["board"], row["pin"]);
        return straps;
    }

    [Fact]
    public void The_table_has_every_strap_of_the_profiles() => Assert.Equal(
        ShippedBoards.Names.SelectMany(name => ShippedBoards.Find(name)!.Straps.Select(strap => $"{name} {strap.Pin}"))
            // The chip select of the program's flash; its verdicts are `not a GPIO`, so the table leaves it out.
            .Where(strap => strap != "rp2040 QSPI_SS").Order(StringComparer.Ordinal),
        Rows.Select(row => $"{row["board"]} {row["pin"]}").Order(StringComparer.Ordinal));

    [Theory, MemberData(nameof(Straps))]
    public void A_bare_csn(string board, string pin) =>
        Judge(board, pin, "csn", "RL1101", row => row["csn"] == "error" ? "warn" : row["csn"], csn: $"\"{pin}\"");

    [Theory, MemberData(nameof(Straps))]
    public void A_csn_with_a_pull_up(string board, string pin) =>
        Judge(board, pin, "csn", "RL1101", row => row["csn"], csn: $"{{ pin: \"{pin}\", pull-up: 10 kohm }}");

    [Theory, MemberData(nameof(Straps))]
    public void Ce(string board, string pin) => Judge(board, pin, "ce", "RL1102", row => row["ce"], ce: $"\"{pin}\"");

    [Theory, MemberData(nameof(Straps))]
    public void Irq(string board, string pin)
    {
        var row = Find(board, pin);
        if (row["irq"] == "ok" && row["must-be"] == "high")
            Judge(board, pin, "irq", "RL1102", _ => "warn", "the radio may still hold it low when only the controller resets", irq: $"\"{pin}\"");
        else
            Judge(board, pin, "irq", "RL1101", _ => row["irq"], irq: $"\"{pin}\"");
    }

    // The wirings that must be rejected for their boot pins: same documents as the table; GPIO34 has no driver (ESP32 Series Datasheet 4.2, table 26 note 2).
    [Theory]
    [InlineData("esp8266", "ce: D1, csn: { pin: D8, pull-up: 10 kohm }", "RL1101", Severity.Error)]
    [InlineData("esp32", "ce: GPIO27, csn: { pin: GPIO12, pull-up: 10 kohm }", "RL1101", Severity.Error)]
    [InlineData("esp32", "ce: GPIO27, csn: GPIO12", "RL1101", Severity.Warning)]
    [InlineData("esp32", "ce: GPIO27, csn: GPIO5, irq: GPIO12", "RL1101", Severity.Error)]
    [InlineData("esp32", "ce: GPIO0, csn: GPIO5", "RL1102", Severity.Error)]
    [InlineData("esp32", "ce: GPIO34, csn: GPIO5", "RL1005", Severity.Error)]
    [InlineData("esp32c3", "ce: GPIO9, csn: GPIO10", "RL1102", Severity.Error)]
    [InlineData("esp32s3", "ce: GPIO4, csn: { pin: GPIO45, pull-up: 10 kohm }", "RL1101", Severity.Error)]
    [InlineData("esp32s3", "ce: GPIO4, csn: GPIO45", "RL1101", Severity.Warning)]
    public void Wrong_wirings_weigh_what_they_cost(string board, string pins, string rule, Severity severity) =>
        Assert.Equal(severity, Assert.Single(Check(board, pins), finding => finding.Rule.Id == rule).Severity);

    private static void Judge(
        string board, string pin, string signal, string rule, Func<PublishedRow, string> verdict, string? text = null,
        string? ce = null, string? csn = null, string? irq = null)
    {
        var row = Find(board, pin);
        var usual = ShippedBoards.Find(board)!.Wiring!;
        var pins = $"ce: {ce ?? $"\"{usual.Ce}\""}, csn: {csn ?? $"\"{usual.Csn}\""}" + (irq is null ? "" : $", irq: {irq}");
        var findings = Check(board, pins);
        // A dedicated pin such as BOOT0 is not among the pins that a line can have.
        if (ShippedBoards.Find(board)!.Find(pin) is null)
        {
            Assert.Equal("avoid", verdict(row));
            Assert.Equal(Severity.Error, Assert.Single(findings, finding => finding.Rule.Id == "RL1003").Severity);
            return;
        }
        var said = findings.Where(finding => finding.Rule.Id is "RL1101" or "RL1102" && finding.Message.StartsWith($"`{signal}`", StringComparison.Ordinal)).ToList();
        if (verdict(row) == "ok")
        {
            Assert.Empty(said);
            return;
        }
        var only = Assert.Single(said);
        Assert.Equal((rule, verdict(row) == "error" ? Severity.Error : Severity.Warning), (only.Rule.Id, only.Severity));
        Assert.EndsWith(RadioLint.Text.Clause.Of(text ?? row[$"{signal}-text"]), only.Message, StringComparison.Ordinal);
    }

    private static PublishedRow Find(string board, string pin) => Rows.Single(row => row["board"] == board && row["pin"] == pin);

    private static System.Collections.Immutable.ImmutableArray<Finding> Check(string board, string pins) => Linter.Check(new SourceText(
        "boot.radio.yaml",
        $"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ channel: 74, rate: 1 Mbps }}\nnodes:\n  hall: {{ board: {board}, pins: {{ {pins} }}, "
            + "supply: { from: bench, output: 3.3 V, capacitor: 10 uF ceramic }, wifi: none }\n")).Findings;
}
