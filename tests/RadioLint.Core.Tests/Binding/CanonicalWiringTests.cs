using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Binding;

/// <summary>
/// Each board's customary SPI pins, as in the public tables of its kind (facts: sources in the profiles), and the pins that the profile
/// proposes for CSN, CE and IRQ give no wiring finding above info, but for the listed exceptions.
/// </summary>
public sealed class CanonicalWiringTests
{
    /// <summary>SCK, MOSI, MISO, SS by printed label.</summary>
    private static readonly (string Board, string Sck, string Mosi, string Miso, string? Ss)[] Table =
    [
        ("atmega328p", "D13", "D11", "D12", "D10"), ("atmega168", "D13", "D11", "D12", "D10"), ("atmega32u4", "D15", "D16", "D14", "D17"),
        ("atmega2560", "D52", "D51", "D50", "D53"), ("atmega1284p", "D7", "D5", "D6", "D4"), ("atmega4809", "D13", "D11", "D12", "D8"),
        ("attiny85", "D2", "D1", "D0", null), ("attiny84", "D4", "D5", "D6", null), ("esp8266", "D5", "D7", "D6", "D8"),
        ("esp32", "GPIO18", "GPIO23", "GPIO19", "GPIO5"), ("esp32s3", "GPIO12", "GPIO11", "GPIO13", "GPIO10"), ("esp32c3", "GPIO6", "GPIO7", "GPIO2", "GPIO10"),
        ("rp2040", "GP18", "GP19", "GP16", "GP17"), ("stm32f103", "A5", "A7", "A6", "A4"), ("stm32f411", "A5", "A7", "A6", "A4"),
        ("samd21", "SCK", "MOSI", "PA12", "D10"), ("nrf52840", "P0.14", "P0.13", "P0.15", "P0.16"), ("bcm283x", "pin 23", "pin 19", "pin 21", "pin 24"),
    ];

    private static readonly (string Board, string Rule, string Reason)[] Exceptions =
    [
        ("esp32c3", "RL1104", "the native MISO is on the strap GPIO2"),
        ("attiny85", "RL1004", "with USI taken, only the pins of the crystal or USB are left"),
        ("atmega32u4", "RL1011", "SS is not on a header, so CSN is elsewhere and SS must be declared an output"),
        ("atmega4809", "RL1011", "the proposed CSN is not SS, which must be declared an output"),
    ];

    public static TheoryData<string> Boards() => [.. Table.Select(row => row.Board)];

    [Fact]
    public void The_table_has_every_shipped_board() => Assert.Equal(ShippedBoards.Names, Table.Select(row => row.Board).Order(StringComparer.Ordinal));

    [Theory, MemberData(nameof(Boards))]
    public void The_profile_agrees_with_the_table(string name)
    {
        var (board, row) = (ShippedBoards.Find(name)!, Table.Single(one => one.Board == name));
        Assert.Equal(board.Wiring!.Sck, board.Find(row.Sck)?.Port);
        Assert.Equal(board.Wiring.Mosi, board.Find(row.Mosi)?.Port);
        Assert.Equal(board.Wiring.Miso, board.Find(row.Miso)?.Port);
        Assert.Equal(board.Wiring.Ss, row.Ss is null ? null : board.Find(row.Ss)?.Port);
    }

    [Theory, MemberData(nameof(Boards))]
    public void It_gives_no_wiring_finding_above_info_but_the_listed_ones(string name)
    {
        var wiring = ShippedBoards.Find(name)!.Wiring!;
        var irq = wiring.Irq is null ? "" : $", irq: \"{wiring.Irq}\"";
        var result = Check($"board: {name}, pins: {{ ce: \"{wiring.Ce}\", csn: \"{wiring.Csn}\"{irq} }}");
        Assert.Equal(
            Exceptions.Where(one => one.Board == name).Select(one => one.Rule),
            result.Where(finding => finding.Rule.Id.StartsWith("RL10", StringComparison.Ordinal) || finding.Rule.Id.StartsWith("RL11", StringComparison.Ordinal))
                .Where(finding => finding.Severity > Severity.Info).Select(finding => finding.Rule.Id).Distinct());
    }

    [Theory]
    [InlineData("RL1006", "board: atmega2560, pins: { ce: D48, csn: D53, sck: D13, mosi: D11, miso: D12 }")]
    [InlineData("RL1006", "board: atmega32u4, pins: { ce: D9, csn: D10, sck: D13, mosi: D11, miso: D12 }")]
    [InlineData("RL1010", "board: attiny85, pins: { ce: PB3, csn: PB4, sck: PB2, mosi: PB0, miso: PB1 }")]
    [InlineData("RL1007", "board: rp2040, pins: { ce: GP20, csn: GP17, sck: GP10, mosi: GP19, miso: GP16 }")]
    [InlineData("RL1101", "board: esp8266, pins: { ce: D1, csn: { pin: D8, pull-up: 10 kohm } }")]
    [InlineData("RL1101", "board: esp32, pins: { ce: GPIO27, csn: GPIO12 }")]
    [InlineData("RL1101", "board: esp32, pins: { ce: GPIO27, csn: GPIO5, irq: GPIO12 }")]
    [InlineData("RL1102", "board: esp32, pins: { ce: GPIO0, csn: GPIO5 }")]
    [InlineData("RL1005", "board: esp32, pins: { ce: GPIO34, csn: GPIO5 }")]
    [InlineData("RL1102", "board: esp32c3, pins: { ce: GPIO9, csn: GPIO10 }")]
    [InlineData("RL1101", "board: esp32s3, pins: { ce: GPIO4, csn: GPIO45 }")]
    [InlineData("RL1011", "board: atmega328p, pins: { ce: D9, csn: D8, irq: D10 }")]
    public void Wrong_wirings_are_rejected(string rule, string node) =>
        Assert.Contains(Check(node), finding => finding.Rule.Id == rule);

    private static System.Collections.Immutable.ImmutableArray<Finding> Check(string node) => Linter.Check(new SourceText(
        "wiring.radio.yaml",
        $"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ channel: 74, rate: 1 Mbps }}\nnodes:\n  hall: {{ {node}, supply: {{ from: bench, output: 3.3 V, capacitor: 10 uF ceramic }}, wifi: none }}\n")).Findings;
}
