using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Emit;

/// <summary>What was planned for a node, as constants: unit in name and comment.</summary>
internal static class PlannedConstants
{
    public static ImmutableArray<Constant> Of(NodeFacts facts, string upper)
    {
        var constants = ImmutableArray.CreateBuilder<Constant>();
        void Add(string name, string value, string comment) => constants.Add(new($"{upper}_{name}", value, comment));

        var (node, air, plan) = (facts.Node, facts.Node.Air, facts.Plan);
        Add("CHANNEL", Number(air.ChosenChannel!.Value), FormattableString.Invariant($"{2400 + air.ChosenChannel.Value} MHz"));
        Add("RATE_KBPS", Number(1_000_000 / air.ChosenRate!.Value.BitTime().Nanoseconds), "kbps");
        Add("ADDRESS_WIDTH", Number(air.AddressWidth!.Value), "bytes");
        Add("CRC_WIDTH", Number(air.Crc!.Value), "bytes");
        Add("ACKNOWLEDGE", Flag(air.Acknowledge?.Value ?? true), "1 yes, 0 no");
        Add("DYNAMIC_LENGTH", Flag(air.PayloadLength?.Value.Kind is LengthKind.Dynamic), "1 yes, 0 no");
        if (plan.Listens)
            Add("DYNAMIC_PIPES", C.Byte(facts.Image[Registers.Dynpd]?[0] ?? 0), "one bit a pipe, as in DYNPD");
        if (plan.SendsAcknowledged && plan.Retry is { } retry)
        {
            Add("RETRY_DELAY_US", Number(retry.Delay.Nanoseconds / 1_000), "us");
            Add("RETRY_LIMIT", Number(retry.Limit), "sendings after the first");
        }
        AddPower(node.Power!.Value, Add);
        if (node.Wiring.Clock is { } clock)
            Add("SPI_CLOCK_KHZ", Number(clock.Hertz / 1_000), "kHz, mode 0, most significant bit first");
        if (node.Spi?.Select is { } select)
            Add("SPI_SELECT", Number(select.Value), "select line of the SPI unit");
        if (node.Sleep?.Wakes?.Value.Period is { } period)
            AddTime("WAKES_EVERY", period, Add);
        if (node.Sleep?.Awake?.Value is { } awake)
            AddTime("AWAKE", awake, Add);
        return constants.ToImmutable();
    }

    private static void AddPower(PowerLevel power, Action<string, string, string> add)
    {
        if (power.Centi % 100 == 0)
            add("POWER_DBM", C.Signed(power.Centi / 100), "dBm at the chip");
        else
            add("POWER_HUNDREDTHS_DBM", C.Signed(power.Centi), "hundredths of a dBm at the chip");
    }

    // In the largest unit that needs no fraction: seconds for sleeping, milliseconds for waking.
    private static void AddTime(string name, Duration time, Action<string, string, string> add)
    {
        var (unit, size, shown) = (time.Nanoseconds % 1_000_000_000, time.Nanoseconds % 1_000_000, name) switch
        {
            (0, _, "WAKES_EVERY") => ("S", 1_000_000_000L, "s"),
            (_, 0, _) => ("MS", 1_000_000L, "ms"),
            _ => ("US", 1_000L, "us"),
        };
        add($"{name}_{unit}", Number(time.Nanoseconds / size), shown);
    }

    private static string Number(long value) => C.Unsigned((ulong)value);

    private static string Flag(bool value) => value ? "1u" : "0u";
}
