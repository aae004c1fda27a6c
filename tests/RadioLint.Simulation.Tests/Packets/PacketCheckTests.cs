using System.Globalization;
using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Packets;

/// <summary>The worked values of facts/radio-checks.csv that speak of packet bits; each row names its source.</summary>
public class PacketCheckTests
{
    public static TheoryData<string> Crcs() => Rows("crc");

    public static TheoryData<string> Times() => Rows("time_on_air");

    public static TheoryData<string> Preambles() => Rows("preamble");

    [Fact]
    public void The_table_has_the_rows_that_are_meant() =>
        Assert.Equal((10, 6, 2), (Crcs().Count, Times().Count, Preambles().Count));

    /// <summary>7.3.5 p30: the checksum at the end of a packet that is put together from its parts.</summary>
    [Theory]
    [MemberData(nameof(Crcs))]
    public void Checksum(string id)
    {
        var row = Row(id);
        var inputs = FactTable.Inputs(row["inputs"]);
        var control = inputs["control"];
        var payload = Bytes(inputs["payload"]);
        var bytes = Number(inputs["crc"]);
        var shape = new PacketShape((inputs["address"].Length - 2) / 2, control != "none", bytes);
        var frame = new Frame();
        frame.Build(shape, Hex(inputs["address"]), control == "none" ? default : PacketControl.Unpack(Convert.ToInt32(control, 2)), payload);

        Assert.Equal((int)Hex(row["expected"]), BitReader.Bits(frame.Bytes, shape.CrcAt(payload.Length), 8 * bytes));
        Assert.Equal(BitByBit(frame, shape, payload.Length), (int)Hex(row["expected"]));
        if (control != "none")
            Assert.Equal(Convert.ToInt32(control, 2), BitReader.Bits(frame.Bytes, shape.ToAddressEnd, 9));
        var cut = new byte[payload.Length];
        BitReader.Bytes(frame.Bytes, shape.PayloadAt, cut);
        Assert.Equal(payload, cut);
        Assert.Equal(Hex(inputs["address"]), BitReader.Address(frame.Bytes, shape.AddressBytes));
    }

    /// <summary>Table 19 p42, and 7.9.1 p49 without the control field.</summary>
    [Theory]
    [MemberData(nameof(Times))]
    public void Time_on_air(string id)
    {
        var row = Row(id);
        var inputs = FactTable.Inputs(row["inputs"]);
        var rate = inputs["rate"] switch { "2M" => AirRate.Mbps2, "1M" => AirRate.Mbps1, _ => AirRate.Kbps250 };
        var frame = new Frame();
        var shape = new PacketShape(Number(inputs["address"]), inputs["control_field"] == "9", Number(inputs["crc"]));
        frame.Build(shape, 0x1122334455, default, new byte[Number(inputs["payload"])]);

        Assert.Equal(double.Parse(row["expected"], CultureInfo.InvariantCulture), Ticks.ToMicroseconds((long)frame.Length * rate.BitTicks()));
    }

    /// <summary>7.3.1 p28.</summary>
    [Theory]
    [MemberData(nameof(Preambles))]
    public void Preamble(string id)
    {
        var row = Row(id);
        var frame = new Frame();
        frame.Build(new(5, true, 2), Hex(row["inputs"]["address ".Length..]), default, [1]);

        Assert.Equal((byte)Hex(row["expected"]), frame.Bytes[0]);
    }

    // The rule of 7.3.5 p30 taken word by word, apart from the tables of the model.
    private static int BitByBit(Frame frame, PacketShape shape, int payload)
    {
        var width = 8 * shape.CrcBytes;
        var polynomial = width == 8 ? 0x07 : 0x1021;
        var value = (1 << width) - 1;
        for (var at = PacketShape.PreambleBits; at < shape.CrcAt(payload); at++)
        {
            var bit = (frame.Bytes[at / 8] >> (7 - (at % 8))) & 1;
            var top = (value >> (width - 1)) & 1;
            value = (value << 1) & ((1 << width) - 1);
            if (bit != top)
                value ^= polynomial;
        }
        return value;
    }

    private static TheoryData<string> Rows(string kind) => [.. FactTable.Read("radio-checks.csv").Where(row => row["kind"] == kind).Select(row => row["id"])];

    private static IReadOnlyDictionary<string, string> Row(string id) => FactTable.Read("radio-checks.csv").Single(row => row["id"] == id);

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static ulong Hex(string text) => Convert.ToUInt64(text, 16);

    private static byte[] Bytes(string text) => text == "empty" ? [] : [.. text.Split(' ').Select(each => Convert.ToByte(each, 16))];
}
