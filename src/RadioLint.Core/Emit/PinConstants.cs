using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Emit;

/// <summary>The radio's lines as constants: number, port and bit, and on most AVR parts the names that avr/io.h gives the registers.</summary>
internal static class PinConstants
{
    public static ConstantGroup Of(Node node, string upper)
    {
        var constants = ImmutableArray.CreateBuilder<Constant>();
        var hasPorts = false;
        foreach (var line in node.Wiring.Lines())
        {
            var name = $"{upper}_PIN_{C.Upper(line.Signal)}";
            if (line.Tie is not PinTie.None)
                constants.Add(Tied(name, line));
            else if (line.Pin is { } pin)
                hasPorts |= Add(constants, name, line, pin, HasPortRegisters(node.Board!));
        }
        var title = "Pins: number as printed on the board or of the GPIO"
            + (hasPorts ? ", port letter and bit" : "")
            + (hasPorts && HasPortRegisters(node.Board!) ? "; names of <avr/io.h>, which the program includes" : "");
        return new(title, constants.ToImmutable());
    }

    private static Constant Tied(string name, Line line) => line.Tie switch
    {
        PinTie.High => new($"{name}_TIED", "1u", "tied high"),
        PinTie.Low => new($"{name}_TIED", "0u", "tied low"),
        _ => new($"{name}_FROM_SCK", "1u", "made from SCK, no pin of its own"),
    };

    private static bool Add(ImmutableArray<Constant>.Builder constants, string name, Line line, BoardPin pin, bool hasRegisters)
    {
        var trigger = line.Use?.Trigger?.Value switch
        {
            Trigger.FallingEdge => ", falling edge",
            Trigger.LowLevel => ", low level",
            Trigger.RisingEdge => ", rising edge",
            Trigger.AnyChange => ", any change",
            _ => "",
        };
        if (pin.PrintedNumber is { } number)
            constants.Add(new(name, C.Unsigned((ulong)number), pin.Both + trigger));
        if (PortAndBit(pin.Port) is not var (port, bit))
            return false;
        constants.Add(new($"{name}_PORT", $"'{port}'", pin.PrintedNumber is null ? pin.Both + trigger : null));
        constants.Add(new($"{name}_BIT", C.Unsigned((ulong)bit)));
        if (!hasRegisters)
            return true;
        if (line.Signal is "irq" or "miso")
            constants.Add(new($"{name}_INPUT", $"PIN{port}"));
        else
            constants.Add(new($"{name}_OUTPUT", $"PORT{port}"));
        constants.Add(new($"{name}_DIRECTION", $"DDR{port}"));
        return true;
    }

    // The 0-series names its registers otherwise, and no compiler at hand knows the part.
    private static bool HasPortRegisters(Board board) =>
        board.Family.StartsWith("AVR 8-bit", StringComparison.Ordinal) && !board.Family.Contains("0-series", StringComparison.Ordinal);

    // `PB5`, `PA19`.
    private static (char Port, int Bit)? PortAndBit(string port) =>
        port.Length is 3 or 4 && port[0] == 'P' && port[1] is >= 'A' and <= 'Z'
        && int.TryParse(port.AsSpan(2), NumberStyles.None, CultureInfo.InvariantCulture, out var bit)
            ? (port[1], bit)
            : null;
}
