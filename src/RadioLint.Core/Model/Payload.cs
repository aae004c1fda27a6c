using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Model;

/// <summary>What kind of thing a field holds.</summary>
public enum FieldKind
{
    /// <summary>A signed or unsigned whole number of 1, 2, 4 or 8 bytes.</summary>
    Integer,

    /// <summary>A 4-byte IEEE 754 number.</summary>
    Float,

    /// <summary>Characters, so many bytes.</summary>
    Text,

    /// <summary>Bytes without meaning to us.</summary>
    Bytes,

    /// <summary>Named bits, the first in the least significant place.</summary>
    Bits,

    /// <summary>A number whose values have names.</summary>
    Choice,

    /// <summary>A type whose size depends on the compiler; read so that it can be refused.</summary>
    CompilerDependent,
}

/// <summary>Some bits of a field.</summary>
public sealed record BitRun(string Name, Place Place, int Width);

/// <summary>A number with as many decimals as written: value = Mantissa x 10^-Decimals.</summary>
public readonly record struct Decimals(long Mantissa, int Places)
{
    public decimal Value => Places == 0 ? Mantissa : new decimal(Mantissa) / Pow10(Places);

    private static decimal Pow10(int places)
    {
        var result = 1m;
        for (var i = 0; i < places; i++)
            result *= 10;
        return result;
    }
}

/// <summary>One field of a payload.</summary>
/// <param name="Name">As written.</param>
/// <param name="Place">Of the name.</param>
/// <param name="TypePlace">Of the type.</param>
public sealed record Field(string Name, Place Place, Place TypePlace, FieldKind Kind)
{
    /// <summary>Of all that is written behind the name.</summary>
    public Place ValuePlace { get; init; } = TypePlace;

    /// <summary>The type as written: `int16`, `text 12`.</summary>
    public string TypeName { get; init; } = "";

    /// <summary>Bytes of one item.</summary>
    public int ItemSize { get; init; }

    /// <summary>How many items; 1 unless `N x`.</summary>
    public int Count { get; init; } = 1;

    public bool IsSigned { get; init; }

    /// <summary>Real value of one count; 1 unless stated.</summary>
    public decimal Scale { get; init; } = 1m;

    public string? Unit { get; init; }

    /// <summary>The declared range in the unit.</summary>
    public (decimal Low, decimal High)? Range { get; init; }

    /// <summary>A constant, in the unit.</summary>
    public decimal? Constant { get; init; }

    /// <summary>`sender`, `sequence`, `type`, `version`, or null.</summary>
    public string? Role { get; init; }

    public ImmutableArray<BitRun> Bits { get; init; } = ImmutableArray<BitRun>.Empty;

    /// <summary>Names of a choice's values, from 0 upwards.</summary>
    public ImmutableArray<string> Choices { get; init; } = ImmutableArray<string>.Empty;

    public int Size => ItemSize * Count;
}

/// <summary>A field and where it stands in the packet.</summary>
public readonly record struct PlacedField(Field Field, int Offset);

/// <summary>What a packet carries. Little-endian unless said otherwise.</summary>
/// <param name="Fields">In the order in which they are sent.</param>
public sealed record Payload(string Name, Place Place, ImmutableArray<Field> Fields)
{
    /// <summary>Where its name stands.</summary>
    public Place NamePlace { get; init; } = Place;

    /// <summary>The map of its fields; in the short form the payload itself.</summary>
    public Place FieldsPlace { get; init; } = Place;

    /// <summary>The layout as written; null when none is.</summary>
    public Stated<bool>? Natural { get; init; }

    /// <summary>True when every field that is written could be read.</summary>
    public bool IsComplete { get; init; } = true;

    /// <summary>True when fields lie as compilers lay a struct out.</summary>
    public bool IsNatural => Natural?.Value ?? false;

    /// <summary>The order as written; null where fields lie as they are written.</summary>
    public Stated<FieldOrder>? Order { get; init; }

    public Stated<bool>? BigEndian { get; init; }

    public bool IsBigEndian => BigEndian?.Value ?? false;

    /// <summary>True when each field was read and has a size that no compiler decides.</summary>
    public bool HasKnownSize => IsComplete && Fields.All(one => one.Kind is not FieldKind.CompilerDependent);

    /// <summary>The widest alignment of natural layout; compilers that align less lay it out otherwise.</summary>
    public const int NaturalAlignment = 8;

    /// <summary>Each field with its offset; natural layout aligns each item to its own size.</summary>
    public IEnumerable<PlacedField> Layout() => Layout(IsNatural ? NaturalAlignment : 1);

    /// <summary>Each field with its offset where no item is aligned to more than so many bytes.</summary>
    public IEnumerable<PlacedField> Layout(int widest)
    {
        var at = 0;
        foreach (var field in Fields)
        {
            at = Aligned(at, Alignment(field, widest));
            yield return new(field, at);
            at += field.Size;
        }
    }

    /// <summary>Bytes in the packet.</summary>
    public int Size => SizeAt(IsNatural ? NaturalAlignment : 1);

    /// <summary>Bytes where no item is aligned to more than so many: the end is filled up to the widest of its fields.</summary>
    public int SizeAt(int widest)
    {
        var (end, most) = (0, 1);
        foreach (var placed in Layout(widest))
        {
            end = placed.Offset + placed.Field.Size;
            most = Math.Max(most, Alignment(placed.Field, widest));
        }
        return Aligned(end, most);
    }

    internal static int Aligned(int at, int alignment) => (at + alignment - 1) / alignment * alignment;

    internal static int Alignment(Field field, int widest) =>
        field.Kind is FieldKind.Text or FieldKind.Bytes || field.ItemSize is 0 or 3 ? 1 : Math.Min(widest, field.ItemSize);
}
