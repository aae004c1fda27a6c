using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Power;

/// <summary>
/// Mean currents by consumers. Figures: nRF24L01+ Product Specification 1.0, Table 4; ATmega328/P data sheet 42735A, table 32-4; the rest is
/// arithmetic: current x share of time.
/// </summary>
public sealed class NodeEnergyTests
{
    private const string Cells = "battery: { cells: 2 x AA alkaline }, board-supply: { from: battery }, supply: { from: battery }";
    private const string Slow = "{ based-on: atmega328p, clock: 4 MHz, logic: 3.3 V }";

    // 40 ms in 600 s are a 15000th: 1.7 mA and 2.5 mA of it are 113 nA and 167 nA, 4.2 uA and 8 uA of the rest 4199.72 nA and 7999.47 nA.
    [Fact]
    public void A_controller_awake_and_asleep()
    {
        var plan = Of($"{Cells}, sleep: {{ wakes: every 10 min, awake: 40 ms, radio: power-down }}");
        Assert.Equal((113, 167), Rounded(plan, "controller awake"));
        Assert.Equal((4_200, 7_999), Rounded(plan, "controller asleep"));
        Assert.Equal((902, 902), Rounded(plan, "radio idle"));
        // 400 uA for 1.5 ms in 600 s.
        Assert.Equal((1, 1), Rounded(plan, "radio starting"));
        Assert.Equal(["links.every"], plan.Missing);
    }

    // 0.1 uA and 2 uA with the watchdog off, which a pin needs no timer for; 26 uA, 13.1 mA and CE tied high.
    [Theory]
    [InlineData("wakes: by pin D2, awake: 1 ms, radio: power-down", "controller asleep", 100, 2_000)]
    [InlineData("wakes: every 1 year, awake: 1 us, radio: standby", "radio idle", 26_000, 26_000)]
    [InlineData("wakes: every 1 year, awake: 1 us, radio: receiving", "radio listening", 13_100_000, 13_100_000)]
    [InlineData("wakes: every 1 year, awake: 1 us, listens: always", "radio listening", 13_100_000, 13_100_000)]
    // 20 ms and 130 us of settling each second, and the rest of 100 ms in standby: 26 uA x 0.07987.
    [InlineData("wakes: every 1 s, awake: 100 ms, listens: 20 ms, radio: power-down", "radio listening", 263_703, 263_703)]
    [InlineData("wakes: every 1 s, awake: 100 ms, listens: 20 ms, radio: power-down", "radio idle", 2_887, 2_887)]
    [InlineData("wakes: every 1 s, awake: 2 s, radio: power-down", "controller awake", 1_700_000, 2_500_000)]
    [InlineData("wakes: every 1 year, awake: 1 us, radio: power-down, current: 7 uA", "the node asleep", 7_000, 7_000)]
    public void Habits_of_sleep(string sleep, string consumer, int low, int high) =>
        Assert.Equal((low, high), Rounded(Of($"{Cells}, sleep: {{ {sleep} }}"), consumer));

    [Theory]
    [InlineData("", "controller awake", 1_700_000, 2_500_000)]
    [InlineData("", "radio idle", 26_000, 26_000)]
    [InlineData(", measured: { sleep: 9 uA }, sleep: { wakes: every 1 year, awake: 1 us, current: 7 uA }", "the node asleep", 9_000, 9_000)]
    public void A_node_that_is_awake_and_a_reading(string more, string consumer, int low, int high) =>
        Assert.Equal((low, high), Rounded(Of(Cells + more), consumer));

    [Fact]
    public void Ce_tied_high_keeps_standby_2()
    {
        var network = Read($"{Cells}, retry: {{ limit: 0 }}", "pins: { ce: tied high, csn: D10 }");
        Assert.Equal((320_000, 320_000), Rounded(NodeEnergy.Of(network.Plan.Nodes[1])!, "radio idle"));
    }

    // What is sent is 30.871 uC less 24 uC of the controller (PWR-01 of the worked examples): 6871 nC each minute are 114.5 nA. With a tenth lost and
    // up to 15 repetitions each delivery has 1/9 failed attempts of 4757.7 nC and 1157 nC + 13.1 mA x 120 us of waiting for 250 us: 7486.7 nC.
    [Fact]
    public void Deliveries_and_their_repetitions()
    {
        var plan = Of($"{Cells}, retry: {{ delay: 250 us, limit: 15 }}", every: "every: 1 min");
        Assert.Equal((115, 128), Rounded(plan, "radio sending"));
        Assert.Equal((128, 128), Rounded(Of($"{Cells}, retry: {{ delay: 250 us, limit: 15 }}, measured: {{ lost: 10 % }}", every: "every: 1 min"), "radio sending"));
        Assert.Equal((229, 257), Rounded(Of($"{Cells}, retry: {{ delay: 250 us, limit: 15 }}", every: "events: 2 per minute"), "radio sending"));
        Assert.Empty(plan.Missing);
    }

    // 1500 us of delay: 130 us settling, 250 us of window, 1120 us at 320 uA: 1157 + 3275 + 358.4 nC.
    [Fact]
    public void Waiting_for_an_acknowledgement() => Assert.Equal(
        4_790.4m, RadioCharge.Waiting(RadioLint.Hardware.RadioParts.Find("nRF24L01+")!.Currents, new(13_100_000), Duration.FromMicroseconds(250), Duration.FromMicroseconds(1_500)));

    // Each regulator with its own current (AMS1117 data sheet: 5 mA typical, 11 mA at most), parts that are always on, other loads by their average.
    [Fact]
    public void What_else_hangs_on_the_battery()
    {
        var plan = Of(
            "battery: { cells: 4 x AA alkaline }, board-supply: { from: battery, pin: RAW, also-feeds: { probe: { average: 1 mA }, lamp: 5 mA } }, supply: { from: regulator, part: AMS1117-3.3, input: 6 V }",
            "{ based-on: atmega328p, clock: 4 MHz, logic: 3.3 V, always-on: { power LED: 1.5 mA, USB bridge: 9 mA }, removed: [USB bridge], rail-3v3: { part: LP2985-33 } }");
        Assert.Equal((5_000_000, 11_000_000), Rounded(plan, "AMS1117-3.3"));
        Assert.Equal((65_000, 65_000), Rounded(plan, "LP2985-33"));
        Assert.Equal((1_500_000, 1_500_000), Rounded(plan, "`power LED`"));
        Assert.Equal((1_000_000, 1_000_000), Rounded(plan, "`probe`"));
        Assert.DoesNotContain(plan.Consumers, consumer => consumer.Name == "`USB bridge`");
        Assert.Equal(["links.every", "supply.also-feeds"], plan.Missing);
        Assert.Equal(["AMS1117-3.3", "controller awake", "`power LED`"], plan.Largest.Take(3).Select(consumer => consumer.Name));
    }

    // 3.3 V from 3 V: 26 uA become 26 x 1.1 / 0.95 at best and 26 x 1.1 / 0.7 at worst.
    [Fact]
    public void A_converter_between()
    {
        var plan = Of("battery: { cells: 2 x AA alkaline }, board-supply: { from: USB }, supply: { from: converter, output: 3.3 V, quiescent: 20 uA, input: battery }");
        Assert.Equal((30_105, 40_857), Rounded(plan, "radio idle"));
        Assert.Equal((20_000, 20_000), Rounded(plan, "the regulator"));
        Assert.DoesNotContain(plan.Consumers, consumer => consumer.Name == "controller awake");
    }

    [Theory]
    [InlineData("supply: { from: battery }")]
    [InlineData("battery: { cells: 2 x AA alkaline }, board-supply: { from: USB }, supply: { from: bench, output: 3.3 V }")]
    [InlineData("battery: { cells: 2 x AA alkaline }, supply: { from: board pin }, board-supply: { from: board pin }")]
    [InlineData("battery: { cells: 2 x AA alkaline }, supply: { from: regulator, input: 5 V }")]
    public void Nothing_hangs_on_a_battery(string far) => Assert.Null(NodeEnergy.Of(Read(far).Plan.Nodes[1]));

    [Fact]
    public void A_port_pin_switches_the_radio_off() => Assert.DoesNotContain(
        Of("battery: { cells: 2 x AA alkaline }, board-supply: { from: battery }, supply: { from: board pin, pin: D7 }, sleep: { wakes: every 1 year, awake: 1 us }").Consumers,
        consumer => consumer.Name == "radio idle" && consumer.High > 1);

    // 31 mA typically at 80 MHz is not what runs at 240 MHz: 68 mA; with its own Wi-Fi on 100 mA while it receives (ESP32 data sheet 4.2, tables 8 and 17).
    [Theory, InlineData("wifi: none", 68, 68), InlineData("wifi: 6", 100, 100), InlineData("power: 0 dBm", 68, 100)]
    public void A_controller_with_wifi(string far, int low, int high) => Assert.Equal(
        new Between<Current>(Current.FromMilliamperes(low), Current.FromMilliamperes(high)),
        ControllerCurrent.Awake(Read(far, board: "esp32", pins: "pins: { ce: GPIO27, csn: GPIO5 }").Nodes[1]));

    // 5.2 mA and 9 mA at 8 MHz: at 6 MHz between 3.9 mA and 9 mA, at 20 MHz 9.5 mA of 16 MHz shared up to 11.875 mA.
    [Theory, InlineData("6 MHz", 3_900, 9_000), InlineData("8 MHz", 5_200, 9_000), InlineData("20 MHz", 11_875, 11_875)]
    public void Clocks_between_the_modes(string clock, int low, int high) => Assert.Equal(
        new Between<Current>(new(low * 1_000L), new(high * 1_000L)), ControllerCurrent.Awake(Read("wifi: none", board: $"{{ based-on: atmega328p, clock: {clock} }}").Nodes[1]));

    [Theory]
    [InlineData("esp32", 10_000), InlineData("esp8266", 10_000), InlineData("esp32c3", 5_000), InlineData("samd21", 4_000), InlineData("stm32f103", 14_000)]
    [InlineData("stm32f411", 2_800), InlineData("nrf52840", 1_500), InlineData("rp2040", 180_000), InlineData("atmega4809", 700), InlineData("atmega1284p", 4_200)]
    public void Every_kind_of_controller_sleeps_with_a_timer(string board, int nanoamperes) =>
        Assert.Equal(new Current(nanoamperes), ControllerCurrent.Asleep(Read("wifi: none", board: board, pins: "").Nodes[1])!.Value.Low);

    [Theory]
    [InlineData(0, "0 minutes"), InlineData(60, "1 minute"), InlineData(7_199, "119 minutes"), InlineData(7_200, "2 hours"), InlineData(863_999, "239 hours")]
    [InlineData(864_000, "10 days"), InlineData(8_639_999, "99 days"), InlineData(8_640_001, "3 months"), InlineData(15_552_000, "180 days"), InlineData(31_557_600, "1 year")]
    [InlineData(94_672_799, "35 months"), InlineData(94_672_800, "3 years")]
    public void Long_times_in_words(long seconds, string words) => Assert.Equal(words, LongTime.InWords(new Duration(seconds * 1_000_000_000)));

    [Theory, InlineData(7_200, 10_800, "2 to 3 hours"), InlineData(7_200, 7_300, "2 hours"), InlineData(7_100, 7_200, "118 minutes to 2 hours")]
    public void Ranges_in_words(long low, long high, string words) =>
        Assert.Equal(words, LongTime.InWords(new Between<Duration>(new(low * 1_000_000_000), new(high * 1_000_000_000))));

    // Figures that no node has must not stop the check.
    [Theory]
    [InlineData("sleep: { wakes: every 1 ns, awake: 200 years, radio: power-down }", "every: 1 ns")]
    [InlineData("measured: { sleep: 4000000000 A, lost: 4000000 % }, retry: { delay: 250 us, limit: 15 }", "events: 2000000000 per second")]
    [InlineData("runs-for: 200 years, temperature: -40..85 degC", "every: 1 ns")]
    public void Absurd_figures_are_survived(string far, string every) =>
        Assert.NotNull(NodeEnergy.Of(Read($"{far}, board-supply: {{ from: battery, also-feeds: {{ a: {{ average: 900000000 A }} }} }}, supply: {{ from: battery }}, battery: {{ cells: 2 x AA alkaline, capacity: 900000000 Ah, resistance: 900000000 ohm }}", every: every).Plan.Nodes[1]));

    private static EnergyPlan Of(string far, string board = Slow, string every = "distance: 2 m") => NodeEnergy.Of(Read(far, board: board, every: every).Plan.Nodes[1])!;

    private static (int Low, int High) Rounded(EnergyPlan plan, string consumer)
    {
        var found = Assert.Single(plan.Consumers, one => one.Name == consumer);
        return ((int)decimal.Round(found.Low), (int)decimal.Round(found.High));
    }

    private static Network Read(string far, string pins = "pins: { ce: D9, csn: D10 }", string board = Slow, string every = "distance: 2 m") => SmallNetwork.Read($$"""
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        nodes:
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
          far: { board: {{board}}{{(pins.Length > 0 ? ", " + pins : "")}}, {{far}} }
        links: [ { from: far, to: hub, payload: reading, {{every}} } ]
        payloads: { reading: { body: bytes 32 } }

        """);
}
