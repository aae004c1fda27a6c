using System.Globalization;
using RadioLint.Readback;
using Xunit;

namespace RadioLint.Tests.Readback;

/// <summary>One radio, printed in many ways, is one radio.</summary>
public sealed class PlainFormTests
{
    private static readonly byte[] Wide = [0x0A, 0x0B, 0x10];

    private static SortedDictionary<byte, byte[]> Registers => Logs.Configured("hall");

    public static TheoryData<string, string> Forms()
    {
        var registers = Registers;
        string Name(byte address) => RegisterMap.NameOf(address);
        string Spi(byte[] bytes, string separator = " ", string prefix = "") => string.Join(separator, bytes.Select(one => prefix + one.ToString("X2", CultureInfo.InvariantCulture)));
        string Number(byte[] bytes) => "0x" + Convert.ToHexString([.. bytes.Reverse()]);
        string Lines(Func<byte, byte[], string> line) => string.Join('\n', registers.Select(one => line(one.Key, one.Value)));
        var bytes = registers.SelectMany(one => one.Value).ToArray();
        return new()
        {
            { "labels", Lines((a, b) => $"{Name(a)} = {(b.Length > 1 ? Number(b) : Spi(b, prefix: "0x"))}") },
            { "labels in lower case, a colon, bare digits", Lines((a, b) => $"  {Name(a).ToLowerInvariant()}:   {Spi(b)}") },
            { "labels without a sign", Lines((a, b) => $"{Name(a)}\t{Spi(b)}") },
            { "labels with addresses in brackets", Lines((a, b) => $"{Name(a)} (0x{a:X2}) = {Spi(b, prefix: "0x")}") },
            { "labels after addresses", Lines((a, b) => $"{a:X2} {Name(a)} {Spi(b)}") },
            { "labels before addresses", Lines((a, b) => $"{Name(a)} 0x{a:X2} {Spi(b, prefix: "0x")}") },
            { "labels with words", Lines((a, b) => $"{Name(a)} register: {Spi(b, prefix: "0x")} as read") },
            { "labels with decimals behind", Lines((a, b) => b.Length > 1 ? $"{Name(a)} = {Number(b)}" : $"{Name(a)} = 0x{b[0]:X2} ({b[0]})") },
            { "times before labels", Lines((a, b) => $"12:30:01.25{a % 10} -> {Name(a)} = {(b.Length > 1 ? Number(b) : Spi(b, prefix: "0x"))}") },
            { "times in brackets", Lines((a, b) => $"[2026-05-02 12:30:{a:00}] {Name(a)}: {Spi(b)}") },
            { "pairs", Lines((a, b) => $"{a:X2}: {Spi(b)}") },
            { "pairs with prefixes", Lines((a, b) => $"0x{a:x2} = {(b.Length > 1 ? Number(b) : Spi(b, prefix: "0x"))}") },
            { "pairs without a sign", Lines((a, b) => $"{a:X2} {Spi(b)}") },
            { "pairs with h", Lines((a, b) => $"{a:X2}h -> {Spi(b, "h ")}h") },
            { "pairs on one line", string.Join(", ", registers.Select(one => $"{one.Key:X2}={(one.Value.Length > 1 ? Number(one.Value) : Spi(one.Value))}")) },
            { "bytes", Spi(bytes) },
            { "bytes in rows", string.Join('\n', bytes.Chunk(8).Select(row => Spi(row))) },
            { "bytes without leading zeros", string.Join(' ', bytes.Select(one => one.ToString("x", CultureInfo.InvariantCulture))) },
            { "bytes with test registers", Spi([.. registers.Where(one => one.Key < 0x18).SelectMany(one => one.Value), 0, 0, 0, 0, .. registers[0x1C], .. registers[0x1D]]) },
            { "C", "static const uint8_t registers[38] = { " + Spi(bytes, ", ", "0x") + " };" },
            { "C in rows", "const uint8_t registers[] = {\n" + string.Join('\n', bytes.Chunk(12).Select(row => "    " + Spi(row, ", ", "0x") + ", /* row */")) + "\n};\n" },
            { "C with remarks", "const unsigned char r[] =\n{\n" + Lines((a, b) => $"  {Spi(b, ", ", "0x")}, // {Name(a)}") + "\n};" },
            { "C pairs", "const uint8_t pairs[][6] = {\n" + Lines((a, b) => $"  {{ 0x{a:X2}, {Spi(b, ", ", "0x")} }},") + "\n};" },
            { "numbers in the order of addresses", string.Join(' ', registers.Select(one => Number(one.Value))) },
        };
    }

    [Theory, MemberData(nameof(Forms))]
    public void All_registers_are_read(string form, string text)
    {
        Assert.NotEmpty(form);
        var node = Assert.Single(Logs.Read("log", "some words before\n" + text + "\nand after, with dead beef and 12 ends\n").Nodes);
        Assert.Equal("", node.Name);
        var listing = Assert.Single(node.Listings);
        Assert.Equal(Shown(Registers), listing.Registers.Where(one => one.Address is < 0x18 or > 0x1B).Select(one => $"{one.Name} {Convert.ToHexString([.. one.Bytes])}"));
        Assert.Equal(NodeVerdict.AsPlanned, Logs.Judge("log", text, "hall").Judgement.Nodes[0].Verdict);
    }

    [Theory, MemberData(nameof(Forms))]
    public void Places_are_those_of_the_values(string form, string text)
    {
        Assert.NotEmpty(form);
        var lines = text.Split('\n');
        foreach (var one in Assert.Single(Assert.Single(Logs.Read("log", text).Nodes).Listings).Registers.Where(one => one.Bytes.Length == 1))
        {
            var place = lines[one.Place.From.Line - 1].Substring(one.Place.From.Column - 1, one.Place.Length);
            Assert.Equal(one.Value, Convert.ToByte(place.TrimEnd('h').Replace("0x", "", StringComparison.Ordinal), 16));
        }
    }

    // Whichever end a program prints first, the plan tells.
    [Theory]
    [InlineData("RX_ADDR_P1: 4F AC 47 7A AB", AddressOrder.Spi)]
    [InlineData("RX_ADDR_P1: AB 7A 47 AC 4F", AddressOrder.Air)]
    [InlineData("RX_ADDR_P1 = 0xAB7A47AC4F", AddressOrder.Air)]
    [InlineData("RX_ADDR_P1 = 0x4FAC477AAB", AddressOrder.Spi)]
    public void The_order_that_fits_is_told(string line, AddressOrder order)
    {
        var judgement = Logs.Judge("log", line, "hall").Judgement;
        Assert.Equal((NodeVerdict.AsPlanned, order), (judgement.Nodes[0].Verdict, judgement.Nodes[0].Order));
    }

    [Theory]
    [InlineData(3, "4FAC47")]
    [InlineData(4, "4FAC477A")]
    [InlineData(1, "4F")]
    public void Short_addresses_in_bare_bytes_are_told_by_their_count(int width, string address)
    {
        var registers = Registers;
        foreach (var wide in Wide)
            registers[wide] = registers[wide][..width];
        registers[0x03] = [(byte)(width == 1 ? 3 : width - 2)];
        var listing = Assert.Single(Assert.Single(Logs.Read("log", string.Join(' ', registers.SelectMany(one => one.Value).Select(one => one.ToString("X2", CultureInfo.InvariantCulture)))).Nodes).Listings);
        Assert.Equal(address, Convert.ToHexString([.. listing[0x0B]!.Bytes]));
        Assert.Equal(26, listing.Count);
    }

    [Fact]
    public void A_name_with_a_run_of_values_names_the_first()
    {
        var listing = Assert.Single(Assert.Single(Logs.Read("log", "RX_ADDR_P2-5 = 0xC3 0xC4 0xC5 0xC6\nRX_PW_P0-5: 1 2 3 4 5 6\nRX_ADDR_P0-1 = 0xE7E7E7E7E7 0xAB7A47AC4F\n").Nodes).Listings);
        Assert.Equal("C3C4C5C6", string.Concat(Enumerable.Range(0x0C, 4).Select(address => listing[(byte)address]!.Value.ToString("X2", CultureInfo.InvariantCulture))));
        Assert.Equal([1, 2, 3, 4, 5, 6], Enumerable.Range(0x11, 6).Select(address => (int)listing[(byte)address]!.Value));
        Assert.Equal("4FAC477AAB", Convert.ToHexString([.. listing[0x0B]!.Bytes]));
    }

    [Fact]
    public void Registers_that_come_again_begin_another_listing()
    {
        var node = Assert.Single(Logs.Read("log", "CONFIG 0F\nRF_CH 02\nCONFIG 0F\nRF_CH 4A\n").Nodes);
        Assert.Equal(["02", "4A"], node.Listings.Select(one => one[0x05]!.Value.ToString("X2", CultureInfo.InvariantCulture)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("be ad\nto be or not")]
    [InlineData("temperature 21.5 humidity 40\n12 34 56\n")]
    [InlineData("00 01 02 03 04 05 06")]
    [InlineData("1: 2\n2: 3\n3: 4")]
    public void What_is_no_listing_is_none(string text) => Assert.Empty(Logs.Read("log", text).Nodes);

    private static IEnumerable<string> Shown(SortedDictionary<byte, byte[]> registers) => registers.Select(one => $"{RegisterMap.NameOf(one.Key)} {Convert.ToHexString(one.Value)}");
}
