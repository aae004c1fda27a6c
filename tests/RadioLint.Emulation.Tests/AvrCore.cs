using RadioLint.Simulation;

namespace RadioLint.Tests.Emulation;

/// <summary>A microcontroller with a program and a radio on its SPI.</summary>
/// <param name="Mcu">As compiler and emulator call it.</param>
/// <param name="Elf">The program.</param>
/// <param name="Csn">Port letter and bit of CSN.</param>
/// <param name="Ce">Port letter and bit of CE.</param>
public sealed record AvrCore(string Mcu, string Elf, (char Port, int Bit) Csn, (char Port, int Bit) Ce, Chip Radio);

/// <summary>What a core did.</summary>
public sealed class AvrTrace
{
    /// <summary>Every SPI frame, as CSN delimits it.</summary>
    public List<byte[]> Frames { get; } = [];

    /// <summary>The marks that the program set.</summary>
    public List<byte> Marks { get; } = [];

    /// <summary>SPCR with SPI2X above it, at every change before a byte.</summary>
    public List<int> SpiSetups { get; } = [];

    /// <summary>What the program left in two registers: differences that it counted, and the last STATUS.</summary>
    public (int Differences, int Status) Result { get; set; }

    /// <summary>True when it came to its end by itself.</summary>
    public bool IsDone { get; set; }

    public int Bytes { get; set; }

    /// <summary>Cycles between two marks.</summary>
    public Dictionary<byte, long> MarkedAt { get; } = [];
}
