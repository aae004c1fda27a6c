using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>A voltage as planned, and how far it may stray: over a regulator's tolerance, or from an empty to a fresh battery.</summary>
public sealed record RailVoltage(Voltage Nominal, Voltage Low, Voltage High)
{
    public static RailVoltage Sharp(Voltage voltage) => new(voltage, voltage, voltage);
}

/// <summary>What a supply chain delivers. Null wherever the manifest and the profiles do not say.</summary>
public static class RadioRail
{
    private static readonly Voltage Usb = new(5_000);
    private static readonly Voltage Rail3V3 = new(3_300);

    /// <summary>The regulator of an adapter board for plug-in modules (common practice, no source).</summary>
    public const string AdapterPart = "AMS1117-3.3";

    /// <summary>At the radio's VDD.</summary>
    public static RailVoltage? Of(Node node) => node.Supply is { } supply ? Output(node, supply) : null;

    /// <summary>The output of one stage.</summary>
    public static RailVoltage? Output(Node node, Supply supply) => supply.From?.Value switch
    {
        SupplySource.Adapter or SupplySource.Regulator or SupplySource.Converter => Regulated(supply),
        SupplySource.Battery => Battery(node) ?? Stated(supply),
        SupplySource.BoardPin => BoardPin(node, supply),
        SupplySource.Usb => Stated(supply) ?? RailVoltage.Sharp(Usb),
        SupplySource.Mains or SupplySource.Bench => Stated(supply),
        _ => null,
    };

    /// <summary>What comes into a stage, nominally.</summary>
    public static Voltage? Input(Node node, Supply supply) => Incoming(node, supply)?.Nominal;

    /// <summary>What comes into a stage, and how far it may stray.</summary>
    public static RailVoltage? Incoming(Node node, Supply supply) => supply.Input?.Value switch
    {
        { Voltage: { } voltage } => RailVoltage.Sharp(voltage),
        { Supply: { } inner } => Output(node, inner),
        { Source: SupplySource.Battery } => Battery(node),
        { Source: SupplySource.Usb } => RailVoltage.Sharp(Usb),
        _ => null,
    };

    /// <summary>The regulator of a stage by its part number, an adapter's customary one included; null when none or not in our tables.</summary>
    public static Regulator? RegulatorOf(Supply supply) => supply.From?.Value switch
    {
        SupplySource.Adapter => Regulators.Find(supply.Part?.Value ?? AdapterPart),
        SupplySource.Regulator or SupplySource.Converter when supply.Part is { } part => Regulators.Find(part.Value),
        _ => null,
    };

    /// <summary>A node's cells in series: nominal, and from empty to fresh; the battery's own figures win over the cells'.</summary>
    public static RailVoltage? Battery(Node node)
    {
        if (node.Battery is not { } battery)
            return null;
        var kind = battery.Cells is { } cells ? CellKinds.Find(cells.Value.Kind) : null;
        var count = battery.Cells?.Value.Count ?? 1;
        Voltage? Times(Fact<Voltage>? one) => one is null ? null : new Voltage(one.Value.Millivolts * count);
        var fresh = battery.Fresh?.Value ?? Times(kind?.Fresh);
        var empty = battery.Empty?.Value ?? Times(kind?.Empty);
        var nominal = Times(kind?.Nominal) ?? fresh;
        return nominal is { } middle ? new(middle, empty ?? middle, fresh ?? middle) : null;
    }

    private static RailVoltage? Stated(Supply supply)
    {
        if (supply.Output is not { } output)
            return null;
        var reach = supply.Tolerance is { } tolerance ? output.Value.Millivolts * tolerance.Value.Millionths / 1_000_000 : 0;
        return new(output.Value, new(output.Value.Millivolts - reach), new(output.Value.Millivolts + reach));
    }

    private static RailVoltage? Regulated(Supply supply)
    {
        if (Stated(supply) is { } stated)
            return stated;
        if (RegulatorOf(supply) is not { } regulator)
            return null;
        var nominal = regulator.Output.Value;
        if (supply.Tolerance is { } tolerance)
        {
            var reach = nominal.Millivolts * tolerance.Value.Millionths / 1_000_000;
            return new(nominal, new(nominal.Millivolts - reach), new(nominal.Millivolts + reach));
        }
        return new(nominal, regulator.Tolerance?.Value.Low ?? nominal, regulator.Tolerance?.Value.High ?? nominal);
    }

    private static RailVoltage? BoardPin(Node node, Supply supply) => supply.Output is not null ? Stated(supply) : PinName(supply) switch
    {
        "3V3" => node.Board?.Rail3V3?.Part is { } part && Regulators.Find(part.Value)?.Tolerance?.Value is { } range
            ? new(Rail3V3, range.Low, range.High)
            : RailVoltage.Sharp(Rail3V3),
        "5V" => RailVoltage.Sharp(Usb),
        "RAW" => node.BoardSupply is { } raw ? Feed(node, raw) : null,
        _ => AtController(node),
    };

    /// <summary>
    /// At the controller's VCC, which is also the voltage of its signals: what the manifest states under `logic`; else, on a chip whose
    /// signals follow its supply, what feeds VCC past the board's regulator; else what such boards usually run at.
    /// </summary>
    public static RailVoltage? AtController(Node node)
    {
        if (node.Board?.Logic is not { } logic)
            return null;
        return node is { Board.IsLogicUsual: true, Board.Tolerates5V.Value: "with supply", BoardSupply: { } board } && FeedsVcc(board) && Feed(node, board) is { } fed
            ? fed
            : RailVoltage.Sharp(logic.Value);
    }

    // Only a stated pin shows that other sources than cells go past the board's regulator.
    private static bool FeedsVcc(Supply board) => board.Pin?.Value is { } pin ? pin == "VCC" : board.From?.Value is SupplySource.Battery;

    // A board cannot be fed from its own pin: a chain that says so has no voltage, and following it would never end.
    private static RailVoltage? Feed(Node node, Supply board) => board.From?.Value is SupplySource.BoardPin ? null : Output(node, board);

    /// <summary>The board pin that a supply comes from, `3V3` unless stated.</summary>
    public static string PinName(Supply supply) => supply.Pin?.Value ?? "3V3";
}
