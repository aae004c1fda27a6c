using System.Globalization;
using System.Text.RegularExpressions;

namespace RadioLint.Tests.Proof.Host;

/// <summary>One emitted header as text: its functions without arguments, its tables, its constants, by the names behind the node's.</summary>
public sealed partial class EmittedNode
{
    private readonly Dictionary<string, string> constants = new(StringComparer.Ordinal);

    /// <param name="mark">Stands before every name in C, so that several versions of a node fit into one program.</param>
    public EmittedNode(string ident, string header, string mark = "")
    {
        Ident = mark + ident;
        var upper = ident.ToUpperInvariant();
        Header = mark.Length == 0 ? header : Regex.Replace(header, $@"\b({ident}|{upper})_", match => mark + match.Value);
        Functions = [.. Regex.Matches(header, $@"^static inline (?:void|uint8_t) {ident}_(\w+)\(void\)$", RegexOptions.Multiline).Select(match => match.Groups[1].Value)];
        Tables = [.. Regex.Matches(header, $@"^static const uint8_t {ident}_(\w*frames)\[", RegexOptions.Multiline).Select(match => match.Groups[1].Value)];
        foreach (Match match in Regex.Matches(header, $@"^#define {upper}_(\w+) (.+?)(?: /\*.*\*/)?$", RegexOptions.Multiline))
            constants.Add(match.Groups[1].Value, Value(match.Groups[2].Value));
    }

    public string Ident { get; }
    public string Header { get; }
    public IReadOnlyList<string> Functions { get; }
    public IReadOnlyList<string> Tables { get; }

    /// <summary>Numbers in decimal, lists of bytes as hex, anything else as it stands.</summary>
    public IReadOnlyDictionary<string, string> Constants => constants;

    private static string Value(string text)
    {
        var bare = text.Trim('(', ')');
        if (bare.StartsWith('{'))
            return string.Concat(HexByte().Matches(bare).Select(match => match.Groups[1].Value));
        bare = bare.TrimEnd('u', 'L');
        if (bare.StartsWith("0x", StringComparison.Ordinal))
            return ulong.Parse(bare.AsSpan(2), NumberStyles.HexNumber, CultureInfo.InvariantCulture).ToString(CultureInfo.InvariantCulture);
        return bare;
    }

    [GeneratedRegex("0x([0-9A-F]{2})u")]
    private static partial Regex HexByte();
}
