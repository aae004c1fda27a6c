using RadioLint.Binding;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Power;

/// <summary>
/// Where figures of supply and energy turn, on both sides, and what counts while nobody says. Check values are arithmetic on the figures named beside them.
/// </summary>
public sealed class PowerEdgeTests
{
    private const string Slow = "{ based-on: atmega328p, clock: 4 MHz, logic: 3.3 V }";
    private const string Cells = "battery: { cells: 2 x AA alkaline }, board-supply: { from: battery }, supply: { from: battery }";

    // Alkaline AA: 0.9 V empty, 1.2 V half empty, 1.6 V fresh (values from memory); straight lines between.
    [Theory]
    [InlineData(800, 0), InlineData(900, 0), InlineData(1_000, 166_666), InlineData(1_200, 500_000), InlineData(1_400, 750_000), InlineData(1_600, 1_000_000), InlineData(1_700, 1_000_000)]
    public void Charge_below_a_voltage(int millivolts, int millionths) =>
        Assert.Equal(new Share(millionths), BatteryFacts.ShareBelow(CellKinds.Find("AA alkaline")!, new(millivolts)));

    [Fact]
    public void A_flat_curve_says_nothing() => Assert.Null(BatteryFacts.ShareBelow(CellKinds.Find("CR2032")!, new(2_500)));

    // Pulses above 15 mA cost 9 % (Application report SWRA349); up to there nothing. 10 mA, so that no shelf life ends it; both ends of the range stand apart by 0.7 to 0.85 and that.
    [Theory, InlineData(14_999_999, false), InlineData(15_000_000, false), InlineData(15_000_001, true)]
    public void Strong_pulses_cost_charge(long peak, bool isLess)
    {
        var battery = NodeOf("battery: { cells: CR2032 }").Battery!;
        var (calm, pulsed) = (BatteryLife.Of(battery, new(10_000), new(10_000))!.Value, BatteryLife.Of(battery, new(10_000), new(10_000), new(peak))!.Value);
        Assert.Equal(isLess, pulsed.Low < calm.Low);
        Assert.Equal(isLess ? decimal.Round(calm.Low.Nanoseconds * 0.91m / 1_000_000_000_000) : decimal.Round(calm.Low.Nanoseconds / 1_000_000_000_000m), decimal.Round(pulsed.Low.Nanoseconds / 1_000_000_000_000m));
        Assert.Equal(calm.High, pulsed.High);
    }

    // What the board's regulator passes on is not the cells themselves.
    [Theory]
    [InlineData("battery: { cells: 2 x AA alkaline }, board-supply: { from: battery }, supply: { from: board pin }", true)]
    [InlineData("battery: { cells: 4 x AA alkaline }, board-supply: { from: regulator, part: LP2985-33, input: battery }, supply: { from: board pin }", false)]
    public void Behind_a_board_pin(string far, bool isDirect) => Assert.Equal(isDirect, BatteryPath.OfRadio(NodeOf(far))!.IsDirect);

    [Fact]
    public void The_controllers_regulator_counts_where_another_source_feeds_the_radio() => Assert.Equal(
        ["LP2985-33"], BatteryRegulator.Of(NodeOf("battery: { cells: 4 x AA alkaline }, board-supply: { from: regulator, part: LP2985-33, input: battery }, supply: { from: bench, output: 3.3 V }"))
            .Select(one => one.Name));

    // Three modes of one clock: the least typical and the greatest most, whichever is listed where.
    [Theory]
    [InlineData("5 mA, max: 7 mA", "3 mA, max: 9 mA", "4 mA, max: 8 mA")]
    [InlineData("3 mA, max: 8 mA", "5 mA, max: 9 mA", "4 mA, max: 7 mA")]
    [InlineData("4 mA, max: 9 mA", "5 mA, max: 8 mA", "3 mA, max: 7 mA")]
    public void Modes_of_one_clock(string first, string second, string third) => Assert.Equal(
        new Between<Current>(Current.FromMilliamperes(3), Current.FromMilliamperes(9)),
        ControllerCurrent.Awake(NodeOf("wires: 5 cm", $"{{ based-on: atmega328p, clock: 12 MHz, currents: [{{ mode: active 12 MHz, typical: {first} }}, {{ mode: run 12 MHz, typical: {second} }}, {{ mode: CPU 12 MHz, typical: {third} }}] }}")));

    // Settling of 130 us and (1 + 5 + 10 + 2) x 8 + 9 bits at 1 Mbps (nRF24L01+ Product Specification 1.0, Tables 16 and 19); a packet holds 32 bytes at most.
    [Theory, InlineData(10, 283), InlineData(32, 459), InlineData(40, 459)]
    public void Longest_sending(int bytes, int microseconds) => Assert.Equal(
        Duration.FromMicroseconds(microseconds), Decoupling.LongestSending(SmallNetwork.PlanOf(SmallNetwork.With("rate: 1 Mbps", payload: $"body: bytes {bytes}"), "far")));

    // Days are said up to 400 of them where they come out whole.
    [Theory, InlineData(399 * 86_400, "399 days"), InlineData(400 * 86_400, "13 months")]
    public void Long_times_in_words(long seconds, string words) => Assert.Equal(words, LongTime.InWords(new Duration(seconds * 1_000_000_000)));

    // 6 ms each minute are a ten thousandth of 1.7 mA and 2.5 mA (ATmega328/P data sheet 42735A, table 32-4); with `awake` 12 ms, which `service` takes 6 ms of.
    [Theory]
    [InlineData("sleep: { wakes: by pin D2, radio: receiving }, service: { takes: 6 ms }", 170, 250)]
    [InlineData("sleep: { wakes: by pin D2, radio: receiving, awake: 6 ms }", 170, 250)]
    [InlineData("sleep: { wakes: by pin D2, radio: receiving, awake: 12 ms }, service: { takes: 6 ms }", 170, 250)]
    [InlineData("sleep: { wakes: every 1 min, radio: power-down }, service: { takes: 6 ms }", 170, 250)]
    [InlineData("sleep: { wakes: every 1 min, radio: receiving, awake: 12 ms }, service: { takes: 6 ms }", 510, 750)]
    [InlineData("sleep: { wakes: by pin D2, radio: power-down, awake: 6 ms }", 0, 0)]
    public void What_is_sent_to_a_sleeper_wakes_it(string far, int low, int high)
    {
        var plan = NodeEnergy.Of(Network($"{Cells}, {far}", Slow, "from: hub, to: far, every: 1 min").Plan.Nodes.Single(one => one.Node.Name == "far"))!;
        var awake = plan.Consumers.SingleOrDefault(one => one.Name == "controller awake");
        Assert.Equal((low, high), ((int)decimal.Round(awake?.Low ?? 0), (int)decimal.Round(awake?.High ?? 0)));
    }

    // 0.9 uA of the chip (nRF24L01+ Product Specification 1.0, Table 4) and 1 uA of the front end (value from memory).
    [Fact]
    public void A_front_end_sleeps_with_its_radio() => Assert.Equal(
        1_900, Rounded(EnergyOf($"{Cells}, sleep: {{ wakes: every 1 year, awake: 1 us, radio: power-down }}, radio: {{ part: nRF24L01+, front-end: RFX2401C }}"), "radio idle").High);

    // With a fifth lost a quarter of an attempt fails for each that ends well: 6871 nC + 7486.7 nC / 4 a minute. Without repetitions half of 50 % fail and half end well.
    [Theory, InlineData("20 %", 15, 146), InlineData("50 %", 0, 120), InlineData("0 %", 15, 115)]
    public void What_was_measured_as_lost_counts_at_both_ends(string lost, int limit, int nanoamperes) => Assert.Equal(
        (nanoamperes, nanoamperes), Rounded(EnergyOf($"{Cells}, retry: {{ delay: 250 us, limit: {limit} }}, measured: {{ lost: {lost} }}"), "radio sending"));

    // A reading of the whole node asleep holds what always draws; awake, a tenth of the time, 65 uA of the regulator and 1.5 mA of the lamp come on top.
    [Fact]
    public void A_reading_asleep_holds_what_always_draws()
    {
        var plan = EnergyOf(
            "battery: { cells: 4 x AA alkaline }, board-supply: { from: regulator, part: LP2985-33, input: battery }, supply: { from: board pin }, measured: { sleep: 9 uA }, sleep: { wakes: every 10 s, awake: 1 s, radio: power-down }",
            "{ based-on: atmega328p, clock: 4 MHz, logic: 3.3 V, always-on: { power LED: 1.5 mA } }");
        Assert.Equal((8_100, 8_100), Rounded(plan, "the node asleep"));
        Assert.Equal((6_500, 6_500), Rounded(plan, "LP2985-33"));
        Assert.Equal((150_000, 150_000), Rounded(plan, "`power LED`"));
    }

    // RFX2401C on a module: 130 mA and 20 mA, the chip inside; alone 11.3 mA at 0 dBm and 13.1 mA at 1 Mbps (nRF24L01+ Product Specification 1.0, Table 4).
    [Theory]
    [InlineData("radio: { part: nRF24L01+, front-end: RFX2401C }, power: 0 dBm", 130_000, 20_000)]
    [InlineData("power: 0 dBm", 11_300, 13_100)]
    public void Sending_and_listening(string far, int sending, int receiving)
    {
        var node = NodeOf(far);
        Assert.Equal((new Current(sending * 1_000L), new Current(receiving * 1_000L)), (PeakCurrent.Sending(node), PeakCurrent.Receiving(node)));
        Assert.Equal(new Current(Math.Max(sending, receiving) * 1_000L), PeakCurrent.OfRadio(node));
    }

    // 2.5 mA at most at 4 MHz, 9 mA at 8 MHz (ATmega328/P data sheet 42735A, table 32-4): a mode of a faster clock does not count.
    [Theory, InlineData(4, 2_500), InlineData(8, 9_000)]
    public void Modes_of_a_faster_clock_do_not_count(int megahertz, int microamperes) => Assert.Equal(
        new Current(microamperes * 1_000L), PeakCurrent.OfController(NodeOf("wires: 5 cm", $"{{ based-on: atmega328p, clock: {megahertz} MHz }}")));

    // Corners of figure 32-1: 4 MHz at 1.8 V, 10 MHz at 2.7 V, 20 MHz at 4.5 V.
    [Theory]
    [InlineData(1_799, 0), InlineData(1_800, 4_000_000), InlineData(2_250, 7_000_000), InlineData(2_700, 10_000_000), InlineData(3_600, 15_000_000), InlineData(4_500, 20_000_000), InlineData(5_500, 20_000_000)]
    public void Clock_at_the_corners(int millivolts, int hertz) =>
        Assert.Equal(new Frequency(hertz), ClockLimit.At(ShippedBoards.Find("atmega328p")!.ClockCorners, new(millivolts)));

    [Theory, InlineData(1_000_000, 1_800), InlineData(4_000_000, 1_800), InlineData(4_000_001, 1_801), InlineData(10_000_000, 2_700), InlineData(20_000_000, 4_500)]
    public void Supply_for_a_clock(int hertz, int millivolts) =>
        Assert.Equal(new Voltage(millivolts), ClockLimit.Needs(ShippedBoards.Find("atmega328p")!.ClockCorners, new(hertz)));

    [Fact]
    public void No_supply_is_enough_for_a_faster_clock()
    {
        Assert.Null(ClockLimit.Needs(ShippedBoards.Find("atmega328p")!.ClockCorners, new(20_000_001)));
        Assert.Null(ClockLimit.Needs([], new(1)));
        Assert.Null(ClockLimit.At([], new(3_300)));
    }

    private static Node NodeOf(string far, string board = Slow) => Network(far, board, "from: far, to: hub, every: 1 min").Nodes.Single(node => node.Name == "far");

    private static EnergyPlan EnergyOf(string far, string board = Slow) => NodeEnergy.Of(Network(far, board, "from: far, to: hub, every: 1 min").Plan.Nodes.Single(one => one.Node.Name == "far"))!;

    private static (int Low, int High) Rounded(EnergyPlan plan, string consumer)
    {
        var found = Assert.Single(plan.Consumers, one => one.Name == consumer);
        return ((int)decimal.Round(found.Low), (int)decimal.Round(found.High));
    }

    private static Network Network(string far, string board, string link) => SmallNetwork.Read($$"""
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        nodes:
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
          far: { board: {{board}}, pins: { ce: D9, csn: D10 }, {{far}} }
        links: [ { {{link}}, payload: reading } ]
        payloads: { reading: { body: bytes 32 } }

        """);
}
