using System.Text;

namespace RadioLint.Text;

/// <summary>
/// A number that a name always gives, on every system: FNV-1a with 64 bits (RFC 9923) over the UTF-8 bytes. It spreads names, nothing more;
/// what must not be forged has a digest of its own. Small enough to write here, where the system's hashes take a fifth of a start to load.
/// </summary>
internal static class NameHash
{
    private const ulong OffsetBasis = 0xCBF29CE484222325;
    private const ulong Prime = 0x100000001B3;

    public static ulong Of(string text)
    {
        var hash = OffsetBasis;
        foreach (var one in Encoding.UTF8.GetBytes(text))
            hash = unchecked((hash ^ one) * Prime);
        return hash;
    }
}
