using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4008: an address as text that has another length than an address, a terminator, or characters that are no single byte.</summary>
public sealed class TextIsNoAddress() : Rule(new(
    "RL4008", Severity.Error, "Text that is no address",
    "as many characters as an address has bytes, 3 to 5, each of ASCII and no terminator among them (nRF24L01+ Product Specification 1.0, Table 28, SETUP_AW; ISO/IEC 9899 6.4.5: a string literal ends with a null character)", "0.1")
{
    Silences = ["RL4003", "RL4004"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var one in WrittenAddresses.Of(network).SelectMany(places => places))
        {
            if (one.Spelling.Text is { } text && Width(one) is { } width && Judge(one, text, width) is { } finding)
                yield return finding with { Subject = one.Place, LinkName = one.Hop?.Link.Name };
        }
    }

    private Finding? Judge(WrittenPlace one, string text, int width)
    {
        var body = WithoutTerminator(text);
        var strange = body.FirstOrDefault(c => c is < ' ' or > '~');
        if (strange != default)
        {
            return At(
                one.Owner, one.Place, $"`{body}` holds the character U+{(int)strange:X4}, which is not 1 byte of ASCII",
                $"write the bytes as the radio gets them, such as `0xC2A7D19B33`, first byte on air first");
        }
        if (body.Length == text.Length)
        {
            return text.Length == width ? null : At(
                one.Owner, one.Place, $"`{text}` has {text.Length} character{(text.Length == 1 ? "" : "s")} where addresses have {width} bytes",
                $"write {width} characters, or the bytes as `0x` and two digits each");
        }
        var bytes = text[text.Length - 1] == '\0' ? text.Length : body.Length + 1;
        var hides = bytes == width && bytes == text.Length;
        return At(
            one.Owner, one.Place,
            bytes == width
                ? (FormattableString)$"`{body}` ends with the terminator of a C string: of the {width} bytes of the address {width - body.Length} {(width - body.Length == 1 ? "is" : "are")} 0 for it"
                : $"`{body}` ends with the terminator of a C string: {bytes} bytes where addresses have {width}",
            body.Length == width ? (FormattableString)$"leave the terminator out" : $"write {width} characters and no terminator",
            body.Length == width ? [Offer($"Write the {width} bytes without terminator", [KeyEdit.Instead(one.Place, $"{Bytes(one.Spelling, body)}")])] : []) with
        {
            // All bytes are there and go on air: it works, by luck.
            Severity = hides ? Severity.Warning : Severity.Error,
        };
    }

    // As YAML reads it in double quotes, or as a C program spells it.
    private static string WithoutTerminator(string text)
    {
        var body = text.TrimEnd('\0');
        return body.Length < text.Length ? body : text.EndsWith("\\0", StringComparison.Ordinal) ? text.Substring(0, text.Length - 2) : text;
    }

    private static Address Bytes(WrittenAddress spelling, string body)
    {
        var bytes = body.Select(c => (byte)c);
        return new(ImmutableArray.CreateRange(spelling.IsRegisterOrder ? bytes.Reverse() : bytes));
    }

    // Where the two ends differ themselves either will do (RL4202); a width that the chip does not offer is RL4001.
    private static int? Width(WrittenPlace one)
    {
        var length = one.Spelling.Address.Width;
        if (one.Pipe is { Number: > 1 } && length == 1)
            return length;
        var widths = one.Hop is { } hop ? new[] { Offered(hop.Sender), Offered(hop.Receiver) } : [Offered(one.Owner)];
        return widths.Contains(length) ? length : widths[0];
    }

    private static int? Offered(Node node) => node.Air.AddressWidth is { Value: >= Address.Narrowest and <= Address.Widest and var width } ? width : null;
}
