namespace RadioLint.Hardware;

/// <summary>How the C compilers of a core lay data out.</summary>
public static class Compilers
{
    private static readonly string[] Wide = ["Arm", "Xtensa", "Tensilica", "RISC-V", "Linux"];

    /// <summary>
    /// The widest alignment of a number in a struct: 1 on the AVR, else that of 8 bytes (asked of avr-gcc, arm-none-eabi-gcc, riscv64-unknown-elf-gcc and gcc
    /// with offsetof and sizeof; Xtensa from memory). Null for a kind of board that is not known.
    /// </summary>
    public static int? WidestAlignment(Board board) =>
        board.Family.StartsWith("AVR", StringComparison.Ordinal) ? 1
        : Array.Exists(Wide, family => board.Family.StartsWith(family, StringComparison.Ordinal)) ? 8
        : null;

    /// <summary>
    /// True where reading a number at an address that is no multiple of its size stops the program: Armv6-M (Armv6-M Architecture Reference Manual, A3.2) and
    /// the Tensilica L106 (value from memory).
    /// </summary>
    public static bool FaultsUnaligned(Board board) => board.Family.Contains("Cortex-M0") || board.Family.StartsWith("Tensilica", StringComparison.Ordinal);
}
