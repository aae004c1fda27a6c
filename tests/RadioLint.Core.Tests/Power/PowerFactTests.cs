using RadioLint.Binding;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Power;

/// <summary>Rails, capacitors, charge and life against the published and worked figures in facts/, the source of each in its row.</summary>
public sealed class PowerFactTests
{
    private static readonly RadioPart Part = RadioParts.Find("nRF24L01+")!;

    private static readonly CellKind Coin = CellKinds.Find("CR2032")!;

    [Fact]
    public void Charge_of_one_report()
    {
        var row = Example("PWR-01");
        var ours = RadioCharge.Packet(Part.Currents, Milliamperes(row, "i_tx_ma"), Milliseconds(row, "t_tx_ms"))
            + RadioCharge.Acknowledgement(Part.Currents, Milliamperes(row, "i_rx_ma"), Milliseconds(row, "t_rx_ms"))
            + RadioCharge.Of(Milliamperes(row, "i_mcu_ma"), Milliseconds(row, "t_mcu_ms"));
        Assert.Equal((Milliamperes(row, "i_txs_ma"), Milliamperes(row, "i_rxs_ma")), (Part.Currents.SettleTransmit.Value, Part.Currents.SettleReceive.Value));
        Near(row, ours / 1_000);
    }

    // The same in nanocoulombs, from manifests: nRF24L01+ Product Specification 1.0, Tables 4 and 19.
    [Theory, InlineData("W57", "2 Mbps"), InlineData("W58", "250 kbps")]
    public void Charge_of_a_delivery_without_loss(string id, string rate)
    {
        var network = SmallNetwork.Read(SmallNetwork.With($"rate: {rate}", payload: "body: bytes 32"));
        var plan = network.Plan.Nodes.Single(one => one.Node.Name == "far");
        Assert.Equal(decimal.Parse(Published.Rows("radio-checks.csv").Single(row => row["id"] == id)["expected"], System.Globalization.CultureInfo.InvariantCulture),
            RadioCharge.Delivery(plan, plan.Sends[0], new(0)));
    }

    [Fact]
    public void Mean_current_of_a_sleeper()
    {
        var row = Example("PWR-02");
        var energy = Energy(
            "rate: 1 Mbps", "board-supply: { from: battery }, supply: { from: battery }, battery: { cells: CR2032 }, sleep: { wakes: to send, awake: 3 ms, radio: standby, current: 6 uA }",
            "{ based-on: atmega328p, clock: 8 MHz, currents: [{ mode: active 8 MHz, typical: 8 mA }] }", "every: 60 s");
        Assert.Equal((6m, 60m), (Input(row, "i_sleep_ua"), Input(row, "period_s")));
        Near(row, energy.Least.Nanoamperes / 1_000m);
    }

    // nRF24L01+ Product Specification 1.0, Table 4: 0.12 mA on average at -6 dBm, 10 kbps and full packets. Only 2 Mbps without acknowledgement gives that.
    [Fact]
    public void Mean_current_of_the_data_sheet()
    {
        var row = Published.Rows("radio-electrical.csv").Single(one => one["quantity"] == "I_TX_average");
        var energy = Energy(
            "rate: 2 Mbps, acknowledge: false", "supply: { from: battery }, battery: { cells: CR2032 }, power: -6 dBm, retry: { limit: 0 }", "atmega328p", "every: 25600 us");
        Assert.Equal(row.Number("value"), decimal.Round(energy.Least.Nanoamperes / 1_000_000m, 2));
    }

    [Fact]
    public void Self_discharge_as_a_current() =>
        Near(Example("PWR-03"), BatteryLife.SelfDischarge(Coin.Capacity!.Value, Coin.SelfDischarge.Value).Nanoamperes / 1_000m);

    [Theory, InlineData("PWR-04"), InlineData("PWR-07")]
    public void Life_in_years(string id)
    {
        var row = Example(id);
        var rated = Milliamperehours(row.Input("capacity_mah"));
        var leak = id == "PWR-04" ? new Current(268) : BatteryLife.SelfDischarge(rated, CellKinds.Find("AA alkaline")!.SelfDischarge.Value);
        Near(row, BatteryLife.Hours(BatteryLife.Part(rated, Share(row.Input("usable"))), Microamperes(row, "i_avg_ua") + leak) / 8_766);
    }

    [Theory, InlineData("PWR-08", "i_ma", "usable_mah"), InlineData("PWR-12", "i_avg_ma", "capacity_mah")]
    public void Life_in_days(string id, string draws, string capacity)
    {
        var row = Example(id);
        var usable = id == "PWR-12" ? Share(row.Input("usable")) : new Share(1_000_000);
        Near(row, BatteryLife.Hours(BatteryLife.Part(Milliamperehours(row.Input(capacity)), usable), Milliamperes(row, draws)) / 24);
    }

    // A life in years ends with the shelf life of the cells, about ten (as PWR-07 says).
    [Fact]
    public void Shelf_life_ends_it()
    {
        var energy = Network("", "battery: { cells: 2 x AA alkaline }", "atmega328p", "every: 1 min");
        Assert.Equal(new Duration(10 * 31_557_600_000_000_000), BatteryLife.Of(energy.Nodes[1].Battery!, new(6_515), new(6_515))!.Value.High);
    }

    [Fact]
    public void Charge_of_a_coin_cell_at_a_heavier_load()
    {
        var row = Example("PWR-05");
        Assert.Equal(decimal.Round(row.Number("result")) * 1_000, BatteryLife.CapacityAt(Coin, Coin.Capacity!.Value, new(930_000)).MicroampereHours);
    }

    [Fact]
    public void Peukerts_exponent_of_alkaline_cells()
    {
        var cell = CellKinds.Find("AA alkaline")!;
        Near(Example("PWR-06"), (decimal)BatteryLife.PeukertExponent(cell.CapacityByLoad[0], cell.CapacityByLoad[1]));
        // Between the two published loads, and beyond them.
        Assert.Equal(
            new[] { 2_900_000L, 2_900_000, 1_400_000, 1_400_000 },
            new[] { 1_000_000L, 25_000_000, 500_000_000, 900_000_000 }.Select(load => BatteryLife.CapacityAt(cell, cell.Capacity!.Value, new(load)).MicroampereHours));
        // Arithmetic with the row's exponent: 2900 mAh x (25 / 100)^0.243 = 2070 mAh.
        Assert.Equal(2_070_000, BatteryLife.CapacityAt(cell, cell.Capacity!.Value, new(100_000_000)).MicroampereHours);
    }

    [Fact]
    public void Sag_of_a_cell()
    {
        var row = Example("PWR-09");
        Near(row, Decoupling.Sag(Milliamperes(row, "i_ma"), new(20_000)).Millivolts / 1_000m);
    }

    [Fact]
    public void Capacitor_for_a_burst()
    {
        var row = Example("PWR-10");
        Near(row, Decoupling.Needed(Milliamperes(row, "i_ma"), Milliseconds(row, "t_ms"), Decoupling.Dip).Picofarads / 1_000_000m);
    }

    // Microcontroller fact sheet 9.4, worked with dV = I dt / C: milliamperes, microseconds, microfarads, millivolts up to the next one.
    [Theory, InlineData(10, 130, 10, 130), InlineData(100, 1_000, 100, 1_000), InlineData(65, 1_316, 100, 856)]
    public void Dip_of_a_capacitor(int draws, int lasts, int capacitor, int dip)
    {
        Assert.Equal(new Voltage(dip), Decoupling.DipOf(Current.FromMilliamperes(draws), Duration.FromMicroseconds(lasts), new(capacitor * 1_000_000L)));
        Assert.True(Decoupling.Needed(Current.FromMilliamperes(draws), Duration.FromMicroseconds(lasts), new(dip)).Picofarads <= capacitor * 1_000_000L);
    }

    [Fact]
    public void Battery_current_of_a_boost_converter()
    {
        var row = Example("PWR-11");
        Near(row, Conversion.Input(Milliamperes(row, "i_ma"), new(3_300), new(2_400), 0.85m).Nanoamperes / 1_000_000m);
    }

    [Fact]
    public void Heat_of_a_linear_regulator()
    {
        var row = Example("SAFE-06");
        Near(row, RegulatorHeat.Microwatts(new(5_000), new(3_300), Milliamperes(row, "i_ma"), new(0)) / 1_000_000m);
    }

    // AMS1117 data sheet, thermal section (90 degC/W), as worked in the microcontroller fact sheet 9.3: volts, milliamperes, milliwatts, degrees.
    [Theory, InlineData(5, 115, 195, 17), InlineData(9, 115, 655, 59), InlineData(12, 115, 1_000, 90), InlineData(5, 500, 850, 76)]
    public void Heat_makes_a_regulator_hotter(int input, int load, int milliwatts, int degrees)
    {
        var heat = RegulatorHeat.Microwatts(new(input * 1_000), new(3_300), Current.FromMilliamperes(load), new(0));
        var rise = RegulatorHeat.Rise(heat, Regulators.Find("AMS1117-3.3")!.RisePerWatt!.Value);
        Assert.Equal((milliwatts, degrees), ((int)(heat / 1_000), rise.Centi / 100));
    }

    // ATmega328P figure 32-1, ATmega32U4 figure 29-2 of its sheet 7766J; in kHz, cut off.
    [Theory, InlineData("atmega328p", 3_300, 13_333, 2_400), InlineData("atmega32u4", 3_300, 10_666, 2_700)]
    public void Clock_over_the_supply(string board, int millivolts, int kilohertz, int needed)
    {
        var corners = ShippedBoards.Find(board)!.ClockCorners;
        Assert.Equal(kilohertz, ClockLimit.At(corners, new(millivolts))!.Value.Hertz / 1_000);
        Assert.Equal(new Voltage(needed), ClockLimit.Needs(corners, Frequency.FromMegahertz(8)));
    }

    private static EnergyPlan Energy(string air, string far, string board, string link) => NodeEnergy.Of(Network(air, far, board, link).Plan.Nodes[1])!;

    private static Network Network(string air, string far, string board, string link) => SmallNetwork.Read($$"""
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: 74{{(air.Length > 0 ? ", " + air : "")}} }
        nodes:
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
          far: { board: {{board}}, pins: { ce: D9, csn: D10 }, {{far}} }
        links: [ { from: far, to: hub, payload: reading, {{link}} } ]
        payloads: { reading: { body: bytes 32 } }

        """);

    private static PublishedRow Example(string id) => Published.Example("worked-examples.csv", id);

    private static void Near(PublishedRow row, decimal ours)
    {
        var within = row["tolerance"] == "exact" ? 0 : decimal.Parse(row["tolerance"].Replace("abs ", "", StringComparison.Ordinal), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture);
        Assert.True(Math.Abs(row.Number("result") - ours) <= within, $"{row["id"]}: {ours} {row["unit"]}, published {row["result"]} ({row["source"]})");
    }

    private static decimal Input(PublishedRow row, string name) => decimal.Parse(row.Input(name), System.Globalization.CultureInfo.InvariantCulture);

    private static Current Milliamperes(PublishedRow row, string name) => new((long)(Input(row, name) * 1_000_000));

    private static Current Microamperes(PublishedRow row, string name) => new((long)(Input(row, name) * 1_000));

    private static Duration Milliseconds(PublishedRow row, string name) => new((long)(Input(row, name) * 1_000_000));

    private static Charge Milliamperehours(string text) => new((long)(decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture) * 1_000));

    private static Share Share(string text) => new((long)(decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture) * 1_000_000));
}
