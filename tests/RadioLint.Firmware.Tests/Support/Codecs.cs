using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Proof;

namespace RadioLint.Tests.Firmware.Support;

/// <summary>
/// What a decoder must accept, for programs/fuzz_codec.c. The payloads of the apiary, the bench and the store, by hand from their manifests: nothing here comes from
/// the headers but the functions' names, and lengths come from the second encoder.
/// </summary>
public static partial class Codecs
{
    private const int Most = 32;

    /// <param name="Bytes">Without what a fixed length adds.</param>
    /// <param name="Demanded">Where constants stand, and their bytes in hex.</param>
    /// <param name="Counts">Where not all bits mean something: which do, in hex.</param>
    /// <param name="Text">Where text lies, and for how many bytes.</param>
    /// <param name="MayRefuse">Some value has a range or a list of choices.</param>
    private sealed record Shape(int Bytes, (int At, string Hex)[] Demanded, (int At, string Hex)[] Counts, (int At, int Length)[] Text, bool MayRefuse);

    private static readonly Dictionary<string, Shape> Shapes = new(StringComparer.Ordinal)
    {
        ["reading"] = new(9, [], [], [], true),
        ["order"] = new(4, [], [(2, "03")], [], false),
        ["weather"] = new(11, [], [], [], true),
        ["climate"] = new(4, [], [], [], true),
        ["alarm"] = new(6, [], [], [], true),
        ["tally"] = new(5, [], [], [], false),
        ["tick"] = new(4, [], [], [], false),
        ["integers"] = new(30, [], [], [], false),
        ["integers_big"] = new(30, [], [], [], false),
        ["limits"] = new(30, [], [], [], true),
        ["limits_big"] = new(30, [], [], [], true),
        // version, then code = -300 = 0xFED4, then zeros.
        ["mixed"] = new(31, [(0, "03"), (28, "D4FE"), (30, "00")], [], [(5, 7)], true),
        ["mixed_big"] = new(31, [(0, "03"), (28, "FED4"), (30, "00")], [], [(5, 7)], true),
        // 0.5 is 0x3F000000 (IEEE 754 binary32).
        ["wide"] = new(26, [(22, "0000003F")], [], [], true),
        ["wide_big"] = new(26, [(22, "3F000000")], [], [], true),
        // 15 bits in two bytes, 23 in three.
        ["flags"] = new(25, [], [(1, "FF7F"), (3, "FFFF7F")], [], true),
        ["flags_big"] = new(25, [], [(1, "7FFF"), (3, "7FFFFF")], [], true),
        // As compilers lay it out: three bytes before b, nine bits in two, four bytes before e.
        ["padded"] = new(24, [], [(1, "000000"), (10, "FF01"), (12, "00000000")], [], false),
        ["padded_big"] = new(24, [], [(1, "000000"), (10, "01FF"), (12, "00000000")], [], false),
        // 70000 = 0x00011170; -70000 = 0xFFFEEE90.
        ["marker"] = new(5, [(0, "07"), (1, "70110100")], [], [], false),
        ["named"] = new(23, [(15, "90EEFEFF"), (19, "90EEFEFF")], [], [(1, 4), (5, 4)], false),
    };

    /// <summary>The text of codecs.h; every decoder of the headers is in it.</summary>
    public static string Header(IReadOnlyDictionary<string, string> files, IEnumerable<string> manifests)
    {
        var text = new StringBuilder();
        var rows = new StringBuilder();
        foreach (var (node, expected) in manifests.SelectMany(manifest => Plan.Read(File.ReadAllText(manifest))))
        {
            var ident = node.Replace('-', '_');
            var lengths = expected.Constants(1);
            text.Append(CultureInfo.InvariantCulture, $"#include \"{ident}_radio.h\"\n");
            foreach (Match match in Decoder(ident).Matches(files[ident + "_radio.h"]))
            {
                var payload = match.Groups[1].Value;
                var (function, length) = ($"{ident}_{payload}", int.Parse(lengths[payload.ToUpperInvariant() + "_LENGTH"], CultureInfo.InvariantCulture));
                text.Append(match.Groups[2].Success
                    ? $$"""
                        static int run_{{function}}(const uint8_t *bytes, uint8_t count, uint8_t *again)
                        {
                            struct {{function}} value;
                            memset(&value, 0xA5, sizeof value);
                            if ({{function}}_decode(&value, bytes, count) == 0u)
                                return UNTOUCHED(value) ? REFUSED : SPOILT;
                            return {{function}}_encode(again, &value) != 0u ? DECODED | ENCODED : DECODED;
                        }

                        """
                    : $$"""
                        static int run_{{function}}(const uint8_t *bytes, uint8_t count, uint8_t *again)
                        {
                            if ({{function}}_decode(bytes, count) == 0u)
                                return REFUSED;
                            return {{function}}_encode(again) != 0u ? DECODED | ENCODED : DECODED;
                        }

                        """);
                rows.Append(Row(function, length, Shapes[SharedName().Replace(payload, "")]));
            }
        }
        return text.Append("static const struct codec codecs[] = {\n").Append(rows).Append("};\n").ToString();
    }

    private static string Row(string function, int length, Shape shape)
    {
        var (demanded, value, counts) = (new byte[Most], new byte[Most], new byte[Most]);
        Array.Fill(counts, (byte)0xFF, 0, shape.Bytes);
        foreach (var (at, hex) in shape.Demanded)
        {
            Convert.FromHexString(hex).CopyTo(value, at);
            Array.Fill(demanded, (byte)0xFF, at, hex.Length / 2);
        }
        foreach (var (at, hex) in shape.Counts)
            Convert.FromHexString(hex).CopyTo(counts, at);
        string Bytes(byte[] bytes) => "{ " + string.Join(", ", bytes.Select(one => one.ToString(CultureInfo.InvariantCulture))) + " }";
        var texts = string.Join(", ", shape.Text.Select(text => FormattableString.Invariant($"{{ {text.At}, {text.Length} }}")).DefaultIfEmpty("{ 0, 0 }"));
        return string.Create(CultureInfo.InvariantCulture, $"    {{ \"{function}\", run_{function}, {length}, {(shape.MayRefuse ? 1 : 0)}, {Bytes(demanded)}, {Bytes(value)}, {Bytes(counts)}, {{ {texts} }} }},\n");
    }

    private static Regex Decoder(string ident) => new($@"^static inline uint8_t {ident}_(\w+)_decode\((struct )?", RegexOptions.Multiline);

    [GeneratedRegex("_in_[0-9]+$")]
    private static partial Regex SharedName();
}
