using System.Text;

namespace Proof;

/// <summary>What derives from names alone: their order, and addresses. The hash is FNV-1a of 64 bits (RFC 9923).</summary>
internal static class Names
{
    private const string Seal = "radiolint address 2";

    /// <summary>Ordinal, digits as numbers: hive-2 before hive-10.</summary>
    public static IComparer<string> Natural { get; } = Comparer<string>.Create((one, other) =>
    {
        foreach (var (a, b) in Parts(one).Zip(Parts(other)))
        {
            var order = char.IsAsciiDigit(a[0]) && char.IsAsciiDigit(b[0]) ? System.Numerics.BigInteger.Parse(a, null).CompareTo(System.Numerics.BigInteger.Parse(b, null)) : string.CompareOrdinal(a, b);
            if (order != 0)
                return order;
        }
        return one.Length != other.Length ? Parts(one).Count.CompareTo(Parts(other).Count) is var count and not 0 ? count : string.CompareOrdinal(one, other) : string.CompareOrdinal(one, other);
    });

    /// <summary>All bytes but the last of a receiver's addresses: the first hash of its name that is well formed.</summary>
    public static byte[] Prefix(string network, string owner, int width)
    {
        for (var counter = 0; ; counter++)
        {
            var bytes = Hash($"prefix\n{network}\n{owner}\n{counter}\n{Seal}")[..(width - 1)];
            var early = Changes(bytes.AsSpan(0, Math.Min(2, bytes.Length)));
            if (early is >= 6 and <= 12 && Changes(bytes) >= (16 * width / 5) - 3 && bytes[0] is not (0x55 or 0xAA)
                && bytes.Distinct().Count() > 1 && !bytes.All(one => one is 0xE7 or 0xC2))
            {
                return bytes;
            }
        }
    }

    /// <summary>The last byte: the first hash that is free and gives the whole address enough changes of level.</summary>
    public static byte Last(string network, string key, byte[] prefix, ICollection<byte> taken)
    {
        byte? free = null;
        for (var counter = 0; counter < 10_000; counter++)
        {
            var last = Hash($"pipe\n{network}\n{key}\n{counter}\n{Seal}")[0];
            if (taken.Contains(last))
                continue;
            if (Changes([.. prefix, last]) >= 16 * (prefix.Length + 1) / 5)
                return last;
            free ??= last;
        }
        return free ?? throw new UnjudgedException("no byte is left");
    }

    // Between neighbouring bits, most significant first.
    private static int Changes(ReadOnlySpan<byte> bytes)
    {
        var changes = 0;
        for (var i = 1; i < bytes.Length * 8; i++)
            changes += Bit(bytes, i) != Bit(bytes, i - 1) ? 1 : 0;
        return changes;

        static int Bit(ReadOnlySpan<byte> bytes, int at) => (bytes[at / 8] >> (7 - (at % 8))) & 1;
    }

    private static byte[] Hash(string text)
    {
        var hash = Encoding.UTF8.GetBytes(text).Aggregate(14695981039346656037UL, (sum, one) => unchecked((sum ^ one) * 1099511628211UL));
        return [.. Enumerable.Range(0, 8).Select(i => (byte)(hash >> (56 - (8 * i))))];
    }

    // Runs of digits, and single other characters.
    private static List<string> Parts(string name)
    {
        var parts = new List<string>();
        for (var i = 0; i < name.Length;)
        {
            var end = i + 1;
            while (char.IsAsciiDigit(name[i]) && end < name.Length && char.IsAsciiDigit(name[end]))
                end++;
            parts.Add(name[i..end]);
            i = end;
        }
        return parts;
    }
}
