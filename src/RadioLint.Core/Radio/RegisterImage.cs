using System.Collections.Immutable;

namespace RadioLint.Radio;

/// <summary>One SPI transfer that configures the radio: a command word and its data, in the order that the wire carries them.</summary>
/// <param name="Bytes">The command word first; multi-byte values low byte first (nRF24L01+ Product Specification 1.0, 8.3.1).</param>
/// <param name="Name">Register or command by its name in the document.</param>
/// <param name="Meaning">What it does here, in words.</param>
public sealed record Frame(ImmutableArray<byte> Bytes, string Name, string Meaning)
{
    private const byte WRegister = 0x20;

    /// <summary>The register's address, or null for a command.</summary>
    public byte? Register => Bytes[0] is >= WRegister and < 0x40 ? (byte)(Bytes[0] & 0x1F) : null;

    /// <summary>What is written, without the command word.</summary>
    public ImmutableArray<byte> Data => Bytes.RemoveAt(0);

    public static Frame Write(byte register, string name, string meaning, params byte[] data) =>
        new(ImmutableArray.Create(data).Insert(0, (byte)(WRegister | register)), name, meaning);

    public static Frame Command(byte word, string name, string meaning) => new(ImmutableArray.Create(word), name, meaning);
}

/// <summary>
/// All that a node's radio must be told, in order: power down first, power up last. Registers that have no effect as planned
/// (those of closed pipes, the width of a dynamic pipe) are not written and not compared.
/// </summary>
/// <param name="Frames">In write order.</param>
/// <param name="NeedsUnlock">True on the earlier part when FEATURE or DYNPD hold anything: they must be made accessible first.</param>
public sealed record RegisterImage(ImmutableArray<Frame> Frames, bool NeedsUnlock)
{
    /// <summary>What a register holds afterwards, as written over SPI; null when it is not written.</summary>
    public ImmutableArray<byte>? this[byte register]
    {
        get
        {
            ImmutableArray<byte>? held = null;
            foreach (var frame in Frames)
            {
                if (frame.Register == register)
                    held = frame.Data;
            }
            return held;
        }
    }
}

/// <summary>Register addresses (Table 28 p57-63).</summary>
public static class Registers
{
    public const byte Config = 0x00;
    public const byte EnAa = 0x01;
    public const byte EnRxAddr = 0x02;
    public const byte SetupAw = 0x03;
    public const byte SetupRetr = 0x04;
    public const byte RfCh = 0x05;
    public const byte RfSetup = 0x06;
    public const byte Status = 0x07;
    public const byte RxAddrP0 = 0x0A;
    public const byte RxAddrP1 = 0x0B;
    public const byte TxAddr = 0x10;
    public const byte RxPwP0 = 0x11;
    public const byte Dynpd = 0x1C;
    public const byte Feature = 0x1D;
}
