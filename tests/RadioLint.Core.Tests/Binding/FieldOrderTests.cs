using System.Collections.Immutable;
using CsCheck;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Binding;

/// <summary>In which order fields are sent.</summary>
public sealed class FieldOrderTests
{
    private static readonly string[] Types = ["uint8", "int16", "uint32", "uint64", "text 3", "bytes 5", "2 x uint16", "3 x uint8", "{ bits: [a, b] }", "{ uint16: [shut, ajar] }"];

    private static Payload Read(string payload) => Linter.Read(new SourceText("a.radio.yaml", $"""
        radiolint: 1
        network: orchard
        nodes: {"{ hall: { board: esp32 } }"}
        payloads:
          reading: {payload}

        """), _ => null)!.Payloads[0];

    private static string Names(Payload payload) => string.Join(" ", payload.Fields.Select(field => field.Name));

    [Theory]
    [InlineData("{ a: uint8, b: uint32, c: uint16 }", "a b c")]
    [InlineData("{ fields: { a: uint8, b: uint32, c: uint16 } }", "a b c")]
    [InlineData("{ fields: { a: uint8, b: uint32, c: uint16 }, order: [c, a, b] }", "c a b")]
    [InlineData("{ fields: { a: uint8, b: uint32, c: uint16 }, order: open }", "b c a")]
    [InlineData("{ fields: { a: uint8, b: uint32, c: uint16 }, order: open, layout: natural }", "b c a")]
    // Those of one width stay as written.
    [InlineData("{ fields: { a: uint16, b: uint8, c: int16, d: int8 }, order: open }", "a c b d")]
    // Type and version are read before the rest is known; what follows fills up to where wider fields stand well.
    [InlineData("{ fields: { weight: uint32, level: uint16, version: uint8 = 2, mark: uint8, kind: uint8 = 1 as type }, order: open }", "kind version level weight mark")]
    [InlineData("{ fields: { weight: uint32, mark: uint8, level: uint16, type: uint8 = 1 }, order: open }", "type mark level weight")]
    // A type that is no constant tells a program nothing beforehand.
    [InlineData("{ fields: { type: uint8, weight: uint32 }, order: open }", "weight type")]
    // More than a packet holds: RL6105 speaks, and the order is left alone.
    [InlineData("{ fields: { a: uint8, b: bytes 30, c: uint16 }, order: open }", "a b c")]
    [InlineData("{ fields: { a: uint8, b: bytes 29, c: uint16 }, order: open }", "c a b")]
    [InlineData("{ fields: { a: uint8, b: int, c: uint16 }, order: open }", "a b c")]
    public void Fields_are_sent_in_the_order(string payload, string expected) => Assert.Equal(expected, Names(Read(payload)));

    [Fact]
    public void A_list_is_the_layout_of_fields_written_so()
    {
        var listed = Read("{ fields: { a: uint8, b: uint32, c: uint16 }, order: [c, a, b] }");
        var written = Read("{ c: uint16, a: uint8, b: uint32 }");
        Assert.Equal(Fingerprint.OfLayout(written).ToDigest(), Fingerprint.OfLayout(listed).ToDigest());
        Assert.NotEqual(Fingerprint.OfLayout(Read("{ a: uint8, b: uint32, c: uint16 }")).ToDigest(), Fingerprint.OfLayout(listed).ToDigest());
    }

    [Fact]
    public void Nothing_is_written_while_it_is_open()
    {
        Assert.Empty(PayloadFaults.Of(Read("{ fields: { a: uint8, b: uint32 }, order: [b, a] }"), 5));
        var fault = Assert.Single(PayloadFaults.Of(Read("{ fields: { a: uint8, b: uint32 }, order: open }"), 5));
        Assert.Equal("the order of the fields of `reading` is still open", fault.Message);
    }

    // Every order of up to seven fields is tried: none has fewer bytes, or fewer fields off a multiple of their size.
    [Fact]
    public void No_order_is_better()
    {
        var (better, dice) = (0, new PCG(101));
        for (var round = 0; round < 400; round++)
        {
            var isNatural = dice.Next(2) == 0;
            var fields = Enumerable.Range(0, 2 + (int)dice.Next(6)).Select(i => $"{(char)('a' + i)}: {Types[dice.Next((uint)Types.Length)]}").ToList();
            if (dice.Next(3) == 0)
                fields.Add("type: uint8 = 1");
            var text = $"{{ fields: {{ {string.Join(", ", fields)} }}, layout: {(isNatural ? "natural" : "packed")}, order: ";
            var chosen = Read($"{text}open }}");
            if (chosen.SizeAt(1) > 32)
                continue;
            var leading = chosen.Fields[0].Role == "type" ? 1 : 0;
            Assert.Equal(fields.Count > 0 && fields[^1].StartsWith("type", StringComparison.Ordinal) ? 1 : 0, leading);
            var least = Orders([.. chosen.Fields.Skip(leading)]).Min(order => Cost(chosen with { Fields = [.. chosen.Fields.Take(leading), .. order] }));
            Assert.Equal(least, Cost(chosen));
            var written = Read($"{text}[{string.Join(", ", fields.Select(field => field.Split(':')[0]))}] }}");
            better += Cost(written) > least ? 1 : 0;
        }
        Assert.True(better > 100, $"only {better} were better than as drawn");
    }

    private static int Cost(Payload payload) => payload.IsNatural
        ? payload.Size
        : payload.Layout().Count(placed => placed.Field.ItemSize is 2 or 4 or 8 && placed.Field.Kind is not (FieldKind.Text or FieldKind.Bytes) && placed.Offset % placed.Field.ItemSize != 0);

    private static IEnumerable<ImmutableArray<Field>> Orders(ImmutableArray<Field> fields) =>
        fields.IsEmpty ? [[]] : fields.SelectMany(first => Orders(fields.Remove(first)).Select(rest => rest.Insert(0, first)));

    // 16 fields of as many kinds as a packet holds, and 32 of one byte: both at once, however many orders they have.
    [Theory]
    [InlineData("natural")]
    [InlineData("packed")]
    public void Full_packets_are_ordered_too(string layout)
    {
        var mixed = Read($"{{ fields: {{ a: uint8, b: text 2, c: text 3, d: text 4, e: text 5, f: uint16, g: uint32, h: 2 x uint16, i: uint8, j: text 6 }}, layout: {layout}, order: open }}");
        Assert.Equal(32, mixed.Size);
        Assert.Equal("g f h a b c d e i j", Names(mixed));
        var bytes = Enumerable.Range(0, 32).Select(i => $"f{i}").ToList();
        Assert.Equal(string.Join(" ", bytes), Names(Read($"{{ fields: {{ {string.Join(", ", bytes.Select(name => $"{name}: uint8"))} }}, layout: {layout}, order: open }}")));
    }
}
