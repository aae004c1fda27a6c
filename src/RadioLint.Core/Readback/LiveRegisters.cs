using RadioLint.Hardware;
using RadioLint.Radio;

namespace RadioLint.Readback;

/// <summary>Registers whose value is of the moment: never compared, only told in words.</summary>
public static class LiveRegisters
{
    public const byte ObserveTx = 0x08;
    public const byte Rpd = 0x09;
    public const byte FifoStatus = 0x17;

    /// <summary>Each live register of a listing, and what it says.</summary>
    public static IEnumerable<(ListedRegister Register, string Says)> Of(Listing listing, RadioPart part) => listing.Registers
        .Where(one => part.Live.Contains(one.Name, StringComparer.Ordinal) || one.Address == Rpd)
        .Select(one => (one, one.Address == Rpd ? Signal(one.Value, part) : InWords(one)));

    // Flags that are set, and what a FIFO holds; a flag that is not set says nothing.
    private static string InWords(ListedRegister one)
    {
        var said = RegisterMap.At(one.Address)!.Fields.Where(field => field.High != field.Low || field.In(one.Value) != 0 || IsEmptyFlag(field))
            .Select(field => field.Says(field.In(one.Value)));
        return string.Join(", ", said);
    }

    private static bool IsEmptyFlag(RegisterField field) => field.Name is "TX_EMPTY" or "RX_EMPTY";

    private static string Signal(byte value, RadioPart part) =>
        $"{((value & 1) != 0 ? "a" : "no")} signal above {part.Detector.Level.Value} on the channel when it was latched";
}
