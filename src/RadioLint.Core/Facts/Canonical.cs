using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace RadioLint.Facts;

/// <summary>
/// Facts as `key=value` lines: the format's line first, then keys in ordinal order, UTF-8, LF. Two texts are equal exactly when the facts are,
/// however the manifest words and orders them.
/// </summary>
public sealed class Canonical(string kind)
{
    /// <summary>Raised when the same facts would give another text: every fingerprint and digest then changes.</summary>
    public const int Version = 1;

    private readonly List<(string Key, string Value)> facts = [];

    public void Add(string key, string value) => facts.Add((key, Plain(value)));

    public void Add(string key, long value) => Add(key, value.ToString(CultureInfo.InvariantCulture));

    public void Add(string key, bool value) => Add(key, value ? "true" : "false");

    /// <summary>Without trailing zeros, so that 0.10 and 0.1 are one.</summary>
    public void Add(string key, decimal value) => Add(key, value == 0 ? "0" : (value / 1.0000000000000000000000000000m).ToString(CultureInfo.InvariantCulture));

    /// <summary>Bytes in the order given, as hex.</summary>
    public void Add(string key, IEnumerable<byte> bytes) => Add(key, Convert.ToHexString([.. bytes]));

    public override string ToString()
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"radiolint {kind} {Version}\n");
        foreach (var (key, value) in facts.OrderBy(fact => fact.Key, StringComparer.Ordinal).ThenBy(fact => fact.Value, StringComparer.Ordinal))
            text.Append(key).Append('=').Append(value).Append('\n');
        return text.ToString();
    }

    /// <summary>The first 32 bits of the text's SHA-256 as 8 upper-case hex digits.</summary>
    public string ToDigest() => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(ToString())), 0, 4);

    // A line break in a value could pose as another fact.
    private static string Plain(string value)
    {
        if (!value.AsSpan().ContainsAny('\n', '\r', '\\'))
            return value;
        return value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal).Replace("\r", "\\r", StringComparison.Ordinal);
    }
}
