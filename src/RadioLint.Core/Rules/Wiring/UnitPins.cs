using RadioLint.Hardware;

namespace RadioLint.Rules.Wiring;

/// <summary>The pins that a unit of the chip is bound to.</summary>
internal static class UnitPins
{
    private static readonly string[] SerialRoles = ["RXD", "TXD", "RX", "TX", "SDA", "SCL", "SCK", "CLK", "MOSI", "MISO"];

    /// <summary>
    /// Ports of a timer's outputs, or of a serial unit's lines. A role that several pins can have is bound to none of them, and on chips with
    /// a pin matrix none is.
    /// </summary>
    public static (HashSet<string> Ports, bool IsTimer) Of(Board board, string name)
    {
        var isTimer = name.StartsWith("Timer", StringComparison.OrdinalIgnoreCase) || name.StartsWith("TC", StringComparison.Ordinal) || name.StartsWith("TIM", StringComparison.Ordinal);
        var ports = new HashSet<string>(StringComparer.Ordinal);
        if (board.Units.Any(unit => unit.Kind is SpiKind.Matrix))
            return (ports, isTimer);
        var names = Names(name);
        var roles = board.Pins
            .SelectMany(pin => (isTimer ? pin.PwmOutputs : pin.Functions).Select(function => (pin.Port, Role: Role(function, names))))
            .Where(one => one.Role is not null && (isTimer || SerialRoles.Contains(one.Role, StringComparer.Ordinal)))
            .GroupBy(one => one.Role, StringComparer.Ordinal);
        ports.UnionWith(roles.Where(role => role.Count() == 1).Select(role => role.First().Port));
        return (ports, isTimer);
    }

    // `Timer1` is TC1 in one maker's tables and TIM1 in another's.
    private static string[] Names(string name)
    {
        if (name.StartsWith("Timer", StringComparison.OrdinalIgnoreCase))
            return ["TC" + name.Substring(5), "TIM" + name.Substring(5)];
        if (name.StartsWith("UART", StringComparison.Ordinal))
            return [name, "USART" + name.Substring(4)];
        return name == "I2C" ? [name, "TWI"] : [name];
    }

    // What stands behind the unit's name: `TC1.OCA`, `TIM2_CH1`, `USART1 TX (remap)`.
    private static string? Role(string function, string[] names)
    {
        foreach (var name in names)
        {
            if (function.Length > name.Length + 1 && function.StartsWith(name, StringComparison.Ordinal) && (function[name.Length] is '.' or '_' or ' '))
                return function.Substring(name.Length + 1).Split(' ')[0];
        }
        return null;
    }
}
