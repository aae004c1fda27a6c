using System.Collections.Immutable;
using System.Numerics;
using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Readback;

/// <summary>Whether a packet's bytes can be a payload, and if not, what other layout they would fit.</summary>
public static class PacketFit
{
    private const int Int = 4;

    /// <summary>What is wrong with the packet as this payload, and what fits instead; null when nothing is.</summary>
    /// <param name="fixedLength">The length that the pipe pads to; null for a length of its own.</param>
    /// <returns>Words about the packet, and what is the same in all packets of this fault.</returns>
    public static (string Words, string Kind)? FaultIn(Payload payload, ImmutableArray<byte> packet, int? fixedLength)
    {
        var wanted = fixedLength ?? payload.Size;
        var (field, wrong) = packet.Length == wanted ? Misplaced(Shape.Of(payload), packet) : (null, null);
        if (packet.Length == wanted && field is null)
            return null;
        var fault = field is null
            ? FormattableString.Invariant($"it has {packet.Length} byte{(packet.Length == 1 ? "" : "s")}, and `{payload.Name}` {wanted}")
            : $"`{field}` {wrong}";
        var other = Other(payload, packet);
        return (fault + other, (field ?? fault) + other);
    }

    private static string Other(Payload payload, ImmutableArray<byte> packet)
    {
        var written = Shape.Of(payload);
        var others = new (Shape Layout, string Words)[]
        {
            (written with { IsBigEndian = !written.IsBigEndian }, "with the bytes of each number turned round"),
            (written with { IsNatural = !written.IsNatural }, written.IsNatural ? "without padding" : "padded as compilers lay a struct out"),
            (written with { Fields = Widened(payload) }, "with an `int` of 4 bytes for each number of 2"),
            (written with { Fields = Widened(payload), IsNatural = !written.IsNatural }, "with an `int` of 4 bytes for each number of 2, padded as compilers lay a struct out"),
        };
        foreach (var (layout, words) in others)
        {
            if (layout.Size == packet.Length && Misplaced(layout, packet).Field is null && Differs(written, layout))
                return $"; it fits {words}";
        }
        return "";
    }

    // A layout that puts every byte where it was says nothing new.
    private static bool Differs(Shape one, Shape other) =>
        one.IsBigEndian != other.IsBigEndian ? one.Fields.Any(field => field.ItemSize > 1 && field.Kind is FieldKind.Integer or FieldKind.Float) : one.Size != other.Size;

    private static ImmutableArray<Field> Widened(Payload payload) =>
        ImmutableArray.CreateRange(payload.Fields.Select(field => field is { Kind: FieldKind.Integer, ItemSize: 2 } ? field with { ItemSize = Int } : field));

    // The first field whose value cannot be.
    private static (string? Field, string? Wrong) Misplaced(Shape layout, ImmutableArray<byte> packet)
    {
        foreach (var (field, offset) in layout.Placed())
        {
            for (var item = 0; item < field.Count && offset + ((item + 1) * field.ItemSize) <= packet.Length; item++)
            {
                var count = CountAt(packet, offset + (item * field.ItemSize), field, layout.IsBigEndian);
                if (Wrong(field, count) is { } wrong)
                    return (field.Name, wrong);
            }
        }
        return (null, null);
    }

    private static string? Wrong(Field field, BigInteger count)
    {
        if (field.Kind is FieldKind.Choice && count >= field.Choices.Length)
            return FormattableString.Invariant($"is {count}, and has {field.Choices.Length} values");
        if (field.Kind is not FieldKind.Integer)
            return null;
        if (field.Constant is { } constant && Counts.Exactly(constant, field.Scale) is { } wanted && wanted != count)
            return FormattableString.Invariant($"is {Value(field, count)}, and always {constant}");
        if (field.Range is var (low, high) && FieldLimits.OfRange(field) is var (least, most) && (count < least || count > most))
            return FormattableString.Invariant($"is {Value(field, count)}{Unit(field)}, outside {low} to {high}{Unit(field)}");
        return null;
    }

    private static string Value(Field field, BigInteger count) =>
        BigInteger.Abs(count) < 1_000_000_000_000 ? FormattableString.Invariant($"{(decimal)count * field.Scale}") : FormattableString.Invariant($"{count} counts");

    private static string Unit(Field field) => field.Unit is { } unit ? " " + unit : "";

    private static BigInteger CountAt(ImmutableArray<byte> packet, int offset, Field field, bool isBigEndian)
    {
        if (field.Kind is not (FieldKind.Integer or FieldKind.Choice))
            return BigInteger.Zero;
        var count = BigInteger.Zero;
        for (var i = 0; i < field.ItemSize; i++)
            count = (count << 8) | packet[offset + (isBigEndian ? i : field.ItemSize - 1 - i)];
        var half = BigInteger.One << ((field.ItemSize * 8) - 1);
        return field.IsSigned && count >= half ? count - (half << 1) : count;
    }

    /// <summary>How bytes may lie in a packet, whatever the manifest says.</summary>
    private sealed record Shape(ImmutableArray<Field> Fields, bool IsNatural, bool IsBigEndian)
    {
        public static Shape Of(Payload payload) => new(payload.Fields, payload.IsNatural, payload.IsBigEndian);

        /// <summary>Bytes in all; compilers fill a struct up to its widest field.</summary>
        public int Size
        {
            get
            {
                var (end, widest) = (0, 1);
                foreach (var placed in Placed())
                    (end, widest) = (placed.Offset + placed.Field.Size, Math.Max(widest, Alignment(placed.Field)));
                return Aligned(end, widest);
            }
        }

        public IEnumerable<PlacedField> Placed()
        {
            var at = 0;
            foreach (var field in Fields)
            {
                at = Aligned(at, Alignment(field));
                yield return new(field, at);
                at += field.Size;
            }
        }

        private int Alignment(Field field) => !IsNatural || field.Kind is FieldKind.Text or FieldKind.Bytes || field.ItemSize is 0 or 3 ? 1 : field.ItemSize;

        private static int Aligned(int at, int alignment) => (at + alignment - 1) / alignment * alignment;
    }
}
