using RadioLint.Power;
using RadioLint.Tests.Support;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Power;

/// <summary>What reaches the radio's VDD, for each kind of source.</summary>
public sealed class RadioRailTests
{
    // AMS1117 data sheet, electrical characteristics: 3.201 V to 3.399 V over temperature.
    [Theory]
    [InlineData("from: adapter, input: 5 V")]
    [InlineData("from: adapter, part: AMS1117-3.3, input: 5 V")]
    [InlineData("from: regulator, part: AMS1117-3.3, input: USB")]
    public void AMS1117_over_temperature(string supply) => Assert.Equal(Rail(3_300, 3_201, 3_399), Of($"supply: {{ {supply} }}"));

    // The same part on the board's own 3.3 V pin, where the manifest names it; without, the pin's name alone is known.
    [Theory]
    [InlineData("board: { based-on: atmega328p, rail-3v3: { part: AMS1117-3.3 } }", 3_201, 3_399)]
    [InlineData("board: atmega328p", 3_300, 3_300)]
    public void The_board_pin_3V3(string board, int low, int high)
    {
        Assert.Equal(Rail(3_300, low, high), Of("supply: { from: board pin }", board));
        Assert.Equal(Rail(3_300, low, high), Of("supply: { from: board pin, pin: 3V3 }", board));
    }

    // Arithmetic: 3.0 V less and plus 2 % is 2.94 V and 3.06 V.
    [Theory]
    [InlineData("from: bench, output: 3 V, tolerance: 2 %")]
    [InlineData("from: mains, output: 3 V, tolerance: 2 %")]
    [InlineData("from: USB, output: 3 V, tolerance: 2 %")]
    [InlineData("from: converter, part: not in our tables, output: 3 V, tolerance: 2 %")]
    [InlineData("from: regulator, part: AMS1117-3.3, output: 3 V, tolerance: 2 %, input: 5 V")]
    [InlineData("from: board pin, pin: VCC, output: 3 V, tolerance: 2 %")]
    public void A_stated_output_wins(string supply) => Assert.Equal(Rail(3_000, 2_940, 3_060), Of($"supply: {{ {supply} }}"));

    // Arithmetic on the part's nominal 3.3 V: 1 % is 33 mV.
    [Fact]
    public void A_stated_tolerance_wins_over_the_parts() =>
        Assert.Equal(Rail(3_300, 3_267, 3_333), Of("supply: { from: regulator, part: AMS1117-3.3, tolerance: 1 %, input: 5 V }"));

    // Cell figures: alkaline AA 1.5 V nominal (public comparison of alkaline AA cells by load), 0.9 V empty and 1.6 V fresh (values from memory).
    [Fact]
    public void Cells_from_empty_to_fresh() =>
        Assert.Equal(Rail(3_000, 1_800, 3_200), Of("supply: { from: battery }, battery: { cells: 2 x AA alkaline }"));

    [Fact]
    public void The_batterys_own_figures_win_over_the_cells() =>
        Assert.Equal(Rail(3_000, 2_000, 3_100), Of("supply: { from: battery }, battery: { cells: 2 x AA alkaline, fresh: 3.1 V, empty: 2 V }"));

    // 5 V: Universal Serial Bus Specification 2.0, 7.2.1 (VBUS nominal).
    [Theory]
    [InlineData("from: USB", 5_000)]
    [InlineData("from: board pin, pin: 5V", 5_000)]
    public void Five_volts_by_name(string supply, int millivolts) => Assert.Equal(Rail(millivolts, millivolts, millivolts), Of($"supply: {{ {supply} }}"));

    // The profile's usual logic voltage, or the one that the manifest states.
    [Theory]
    [InlineData("board: atmega328p", 5_000)]
    [InlineData("board: esp32", 3_300)]
    [InlineData("board: { based-on: atmega328p, clock: 8 MHz, logic: 3.3 V }", 3_300)]
    public void VCC_is_the_boards_logic_voltage(string board, int millivolts) =>
        Assert.Equal(Rail(millivolts, millivolts, millivolts), Of("supply: { from: board pin, pin: VCC }", board));

    // Two cells straight on VCC: the pin has what the cells have, not the 5 V that such boards usually run at.
    [Theory]
    [InlineData("board-supply: { from: battery }")]
    [InlineData("board-supply: { from: battery, pin: VCC }")]
    public void VCC_of_a_board_on_its_cells(string board) => Assert.Equal(
        Rail(3_000, 1_800, 3_200), Of($"supply: {{ from: board pin, pin: VCC }}, {board}, battery: {{ cells: 2 x AA alkaline }}"));

    [Fact]
    public void VCC_of_a_board_fed_there_by_a_regulator() => Assert.Equal(
        Rail(3_300, 3_201, 3_399), Of("supply: { from: board pin, pin: VCC }, board-supply: { from: regulator, part: AMS1117-3.3, input: USB, pin: VCC }"));

    // Cells into RAW meet the board's regulator, which makes the logic voltage.
    [Fact]
    public void VCC_behind_the_boards_regulator() => Assert.Equal(
        Rail(5_000, 5_000, 5_000), Of("supply: { from: board pin, pin: VCC }, board-supply: { from: battery, pin: RAW }, battery: { cells: 6 x AA alkaline }"));

    [Fact]
    public void RAW_is_what_feeds_the_board() => Assert.Equal(
        Rail(9_000, 5_400, 9_600), Of("supply: { from: board pin, pin: RAW }, board-supply: { from: battery, pin: RAW }, battery: { cells: 6 x AA alkaline }"));

    [Theory]
    [InlineData("supply: { from: bench }")]
    [InlineData("supply: { from: mains }")]
    [InlineData("supply: { from: battery }")]
    [InlineData("supply: { from: regulator, input: 5 V }")]
    [InlineData("supply: { from: regulator, part: not in our tables, input: 5 V }")]
    [InlineData("supply: { from: adapter, part: not in our tables, input: 5 V }")]
    [InlineData("supply: { from: divider, resistors: [1 kohm, 2 kohm] }")]
    [InlineData("supply: { from: board pin, pin: RAW }")]
    [InlineData("supply: { pin: 3V3 }")]
    [InlineData("wifi: none")]
    public void What_nobody_says_is_not_known(string supply) => Assert.Null(Of(supply));

    // A chain that feeds itself has no voltage, and must not keep us busy; VCC then has what such boards usually run at.
    [Theory]
    [InlineData("supply: { from: board pin, pin: RAW }, board-supply: { from: board pin, pin: RAW }", null)]
    [InlineData("supply: { from: board pin, pin: RAW }, board-supply: { from: board pin, pin: VCC }", null)]
    [InlineData("supply: { from: board pin, pin: VCC }, board-supply: { from: board pin, pin: VCC }", 5_000)]
    public void A_board_fed_from_its_own_pin_ends(string supply, int? millivolts) =>
        Assert.Equal(millivolts is { } volts ? Rail(volts, volts, volts) : null, Of(supply));

    // What a manifest states is stated, whatever its file is called; the shipped profiles lie in a folder of that name too.
    [Fact]
    public void Stated_logic_of_a_manifest_in_a_folder_called_Hardware()
    {
        const string text = "radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n  hall:\n    board: { based-on: atmega328p, logic: 3.3 V }\n"
            + "    pins: { ce: D9, csn: D10 }\n    supply: { from: board pin, pin: VCC }\n    board-supply: { from: battery }\n    battery: { cells: 2 x AA alkaline }\n";
        var network = Linter.Check(new SourceText("Hardware/cellar.radio.yaml", text)).Network!;
        Assert.Equal(Rail(3_300, 3_300, 3_300), RadioRail.Of(network.Nodes[0]));
    }

    private static RailVoltage Rail(int nominal, int low, int high) => new(new(nominal), new(low), new(high));

    private static RailVoltage? Of(string node, string board = "board: atmega328p") => RadioRail.Of(SmallNetwork.Read(
        $"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ channel: 74, rate: 1 Mbps }}\nnodes:\n  hall: {{ {board}, pins: {{ ce: D9, csn: D10 }}, {node} }}\n").Nodes[0]);
}
