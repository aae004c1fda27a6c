using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace RadioLint.Model;

/// <summary>An address: its bytes in air order, the most significant byte first. SPI takes them the other way round.</summary>
public sealed class Address : IEquatable<Address>
{
    /// <summary>The narrowest width in bytes (nRF24L01+ Product Specification 1.0, Table 28, SETUP_AW; code 00 is illegal).</summary>
    public const int Narrowest = 3;

    /// <summary>The widest (same place).</summary>
    public const int Widest = 5;

    public Address(ImmutableArray<byte> airBytes) => AirBytes = airBytes;

    /// <summary>First byte on air first (nRF24L01+ Product Specification 1.0, 7.3.2 and Figure 5).</summary>
    public ImmutableArray<byte> AirBytes { get; }

    /// <summary>Low byte first, as W_REGISTER takes them (same document, 8.3.1).</summary>
    public ImmutableArray<byte> RegisterBytes => ImmutableArray.CreateRange(AirBytes.Reverse());

    public int Width => AirBytes.Length;

    /// <summary>The byte that tells pipes 1 to 5 apart: the last on air; 0 of an address without bytes, which RL4003 finds fault with.</summary>
    public byte LowByte => AirBytes.IsEmpty ? (byte)0 : AirBytes[AirBytes.Length - 1];

    /// <summary>The bytes that pipes 1 to 5 share.</summary>
    public ImmutableArray<byte> Prefix => AirBytes.IsEmpty ? AirBytes : AirBytes.RemoveAt(AirBytes.Length - 1);

    /// <summary>How often neighbouring bits differ, over the first so many bits (all when null).</summary>
    public int LevelChanges(int? firstBits = null)
    {
        var bits = Math.Min(firstBits ?? AirBytes.Length * 8, AirBytes.Length * 8);
        var changes = 0;
        for (var i = 1; i < bits; i++)
        {
            if (Bit(i) != Bit(i - 1))
                changes++;
        }
        return changes;
    }

    public Address WithLowByte(byte low) => AirBytes.IsEmpty ? this : new(AirBytes.SetItem(AirBytes.Length - 1, low));

    /// <summary>`0x` and the bytes in air order.</summary>
    public override string ToString()
    {
        var text = new StringBuilder("0x");
        foreach (var one in AirBytes)
            text.Append(one.ToString("X2", CultureInfo.InvariantCulture));
        return text.ToString();
    }

    public bool Equals(Address? other) => other is not null && AirBytes.AsSpan().SequenceEqual(other.AirBytes.AsSpan());

    public override bool Equals(object? obj) => Equals(obj as Address);

    public override int GetHashCode()
    {
        var hash = 17;
        foreach (var one in AirBytes)
            hash = unchecked((hash * 31) + one);
        return hash;
    }

    private int Bit(int index) => (AirBytes[index / 8] >> (7 - (index % 8))) & 1;
}

/// <summary>An address as the manifest spells it.</summary>
/// <param name="Address">Its bytes in air order.</param>
/// <param name="Form">How they are written.</param>
public sealed record WrittenAddress(Address Address, AddressForm Form)
{
    /// <summary>The characters, where it is written as text; RL4008 judges them.</summary>
    public string? Text { get; init; }

    /// <summary>True when the byte that is sent last is written first.</summary>
    public bool IsRegisterOrder { get; init; }
}

/// <summary>The forms that an address is written in.</summary>
public enum AddressForm
{
    /// <summary>`0x` and the bytes in air order.</summary>
    Digits,

    /// <summary>Characters, with the order beside them.</summary>
    Text,

    /// <summary>A list of bytes, with the order beside it.</summary>
    Bytes,
}
