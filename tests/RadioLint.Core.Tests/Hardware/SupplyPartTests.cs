using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>Regulators, cells and kinds of module against published figures.</summary>
public sealed class SupplyPartTests
{
    // AMS1117 data sheet, electrical characteristics, thermal section, note 2.
    [Fact]
    public void AMS1117_as_its_data_sheet_says()
    {
        var part = Regulators.Find("AMS1117-3.3")!;
        Assert.Equal(new Voltage(3_300), part.Output.Value);
        Assert.Equal(new Between<Voltage>(new(3_201), new(3_399)), part.Tolerance!.Value);
        Assert.Equal(new Between<Voltage>(new(3_251), new(3_349)), part.ToleranceAt25!.Value);
        Assert.Equal((new Voltage(1_100), new Voltage(1_300)), (part.Dropout!.Value, part.DropoutMost!.Value));
        Assert.Equal((Current.FromMilliamperes(5), Current.FromMilliamperes(11)), (part.Quiescent!.Value, part.QuiescentMost!.Value));
        Assert.Equal((Current.FromMilliamperes(800), new Voltage(15_000)), (part.PlanningLimit.Value, part.InputMax!.Value));
        Assert.Equal((new Temperature(9_000), new Temperature(12_500)), (part.RisePerWatt!.Value, part.JunctionMax!.Value));
        Assert.Equal((new Dissipation(1_200), new Capacitance(22_000_000)), (part.PowerLimit!.Value, part.OutputCapacitor!.Value));
    }

    // RT9013 data sheet DS9013-10, electrical characteristics.
    [Fact]
    public void RT9013_as_its_data_sheet_says()
    {
        var part = Regulators.Find("RT9013-33")!;
        Assert.Equal((new Voltage(250), new Voltage(400)), (part.Dropout!.Value, part.DropoutMost!.Value));
        Assert.Equal((new Voltage(2_200), new Voltage(5_500)), (part.InputLeast!.Value, part.InputMax!.Value));
        Assert.Equal((Current.FromMilliamperes(500), new Current(25_000)), (part.Limit.Value, part.Quiescent!.Value));
        Assert.Null(part.Tolerance);
    }

    // Planning figures of this project, from the ratings beside them; NCP1117/D Rev. 24, front page, for the last (no planning figure).
    [Theory]
    [InlineData("LP2985-33", 150)]
    [InlineData("XC6206P332", 150)]
    [InlineData("FT232R 3V3OUT", 50)]
    [InlineData("CH340 V3", 0)]
    [InlineData("NCP1117-3.3", 1000)]
    public void Planning_limit_falls_back_to_the_limit(string name, int milliamperes) =>
        Assert.Equal(Current.FromMilliamperes(milliamperes), Regulators.Find(name)!.PlanningLimit.Value);

    // CR2032 figures of public makers, product specification table.
    [Fact]
    public void CR2032_as_its_makers_say()
    {
        var cell = CellKinds.Find("CR2032")!;
        Assert.Equal((Current.FromMilliamperes(3), Current.FromMilliamperes(15)), (cell.Continuous!.Value, cell.Pulse!.Value));
        Assert.Equal(new Between<Resistance>(new(10_000), new(40_000)), cell.Resistance!.Value);
        Assert.Equal((new Charge(235_000), new Voltage(2_000), new Share(10_000)), (cell.Capacity!.Value, cell.Empty.Value, cell.SelfDischarge.Value));
        Assert.Equal([new Current(200_000), new Current(930_000)], cell.CapacityByLoad.Select(row => row.Load));
    }

    // Public comparison of alkaline AA cells by load; resistance from memory.
    [Fact]
    public void Alkaline_AA_as_compared()
    {
        var cell = CellKinds.Find("AA alkaline")!;
        Assert.Equal(new Charge(2_900_000), cell.Capacity!.Value);
        Assert.Equal(new Between<Resistance>(new(150), new(300)), cell.Resistance!.Value);
        Assert.Equal(new Between<Resistance>(new(1_000), new(1_000)), cell.ResistanceEmpty!.Value);
        Assert.Equal(10 * 31_557_600L, cell.ShelfLife!.Value.Nanoseconds / 1_000_000_000);
        Assert.Equal("value from memory", cell.Resistance.Citation);
    }

    [Theory]
    [InlineData("LR6", "AA alkaline")]
    [InlineData("18650", "Li-ion")]
    [InlineData("coin cell", "CR2032")]
    [InlineData("LiPo", "LiPo")]
    [InlineData("lipo", null)]
    public void Cells_answer_to_their_other_names(string name, string? kind) => Assert.Equal(kind, CellKinds.Find(name)?.Name);

    [Fact]
    public void No_name_stands_for_two_cells()
    {
        var names = CellKinds.Names.SelectMany(name => CellKinds.Find(name)!.AlsoCalled.Append(name)).ToList();
        Assert.Equal(names.Distinct(StringComparer.Ordinal), names);
        Assert.Equal(20, names.Count);
    }

    // Common practice, no source; the adapter's input is AMS1117's 3.3 V + 1.3 V dropout.
    [Fact]
    public void Modules_name_parts_that_exist()
    {
        Assert.Equal(["GND", "VCC", "CE", "CSN", "SCK", "MOSI", "MISO", "IRQ"], ModuleKinds.Of(ModuleHeader.EightPin).Pins!.Value);
        Assert.Equal(["10-pin", "castellated", "on board"], new[] { ModuleHeader.TenPin, ModuleHeader.Castellated, ModuleHeader.OnBoard }.Select(header => ModuleKinds.Of(header).Name));
        var adapter = ModuleKinds.Find("adapter")!;
        var regulator = Regulators.Find(adapter.Regulator!.Value)!;
        Assert.Equal(regulator.Output.Value + regulator.DropoutMost!.Value, adapter.InputAssured!.Value);
        Assert.True(adapter.PassesSignals!.Value);
        var amplified = ModuleKinds.Find("amplified")!;
        Assert.NotNull(FrontEnds.Find(amplified.FrontEnd!.Value));
        Assert.Equal(("8-pin", AntennaKind.External), (amplified.Header, amplified.Antenna!.Value));
    }
}
