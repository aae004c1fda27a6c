using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using RadioLint.Model;

namespace RadioLint.Radio;

/// <summary>
/// Addresses from names alone, so that a node added or a line moved changes nobody else's. Candidates come from SHA-256 and are
/// taken when they are well formed: enough level changes to be found, none that continues the preamble, none of the factory ones.
/// </summary>
public static class DerivedAddresses
{
    // Bounds for the candidates tried; about one in two is well formed, so these are never reached.
    private const int Tries = 10_000;

    /// <summary>The bytes that all pipes of a receiver share, first byte on air first.</summary>
    /// <param name="network">The network's name.</param>
    /// <param name="owner">The receiver's name, or what stands for several that must share.</param>
    /// <param name="width">Bytes of a whole address, 3 to 5.</param>
    public static ImmutableArray<byte> Prefix(string network, string owner, int width)
    {
        for (var counter = 0; counter < Tries; counter++)
        {
            var candidate = ImmutableArray.Create(Hash($"prefix\n{network}\n{owner}", counter), 0, width - 1);
            if (IsWellFormed(candidate))
                return candidate;
        }
        throw new InvalidOperationException("no well-formed prefix was found");
    }

    /// <summary>The last byte on air for one pipe; null when all 256 are taken.</summary>
    public static byte? LowByte(string network, string key, ImmutableArray<byte> prefix, Func<byte, bool> isTaken)
    {
        var least = LeastChanges(prefix.Length + 1);
        byte? fallBack = null;
        for (var counter = 0; counter < Tries; counter++)
        {
            var candidate = Hash($"pipe\n{network}\n{key}", counter)[0];
            if (isTaken(candidate))
                continue;
            if (new Address(prefix.Add(candidate)).LevelChanges() >= least)
                return candidate;
            fallBack ??= candidate;
        }
        return fallBack;
    }

    /// <summary>Level changes that a whole derived address has at least: 16 in 40 bits, in proportion for shorter ones.</summary>
    public static int LeastChanges(int width) => 16 * width / 5;

    private static bool IsWellFormed(ImmutableArray<byte> prefix)
    {
        var address = new Address(prefix);
        var inFirst16 = address.LevelChanges(16);
        return inFirst16 is >= 6 and <= 12
            && address.LevelChanges() >= LeastChanges(prefix.Length + 1) - 3
            && prefix[0] is not (0x55 or 0xAA)
            && prefix.Distinct().Count() > 1
            && !prefix.All(one => one is 0xE7 or 0xC2);
    }

    private static byte[] Hash(string text, int counter)
    {
        var bytes = Encoding.UTF8.GetBytes(FormattableString.Invariant($"radiolint address 1\n{text}\n{counter}"));
        return SHA256.HashData(bytes);
    }
}
