using System.Globalization;
using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>Whole transactions against the worked values: T_UL + 2 x 130 + T_OA + T_ACK + T_IRQ (nRF24L01+ Product Specification 1.0, Table 19 p42).</summary>
public class TransactionTests
{
    public static TheoryData<string> Cycles() => [.. FactTable.Read("radio-checks.csv").Where(row => row["kind"] == "esb_cycle").Select(row => row["id"])];

    [Fact]
    public void The_table_has_the_rows_that_are_meant() => Assert.Equal(4, Cycles().Count);

    /// <summary>The model sets flags at the end of a packet: upload and the delay of the pin (Figure 15 p42) are added to what it measures.</summary>
    [Theory]
    [MemberData(nameof(Cycles))]
    public void Cycle(string id)
    {
        var row = FactTable.Read("radio-checks.csv").Single(each => each["id"] == id);
        var inputs = FactTable.Inputs(row["inputs"]);
        var payload = Number(inputs["payload"]);
        var ack = (int)Number(inputs["ack_payload"]);
        var link = new Link
        {
            Rate = inputs["rate"] switch { "2M" => AirRate.Mbps2, "1M" => AirRate.Mbps1, _ => AirRate.Kbps250 },
            Width = (int)Number(inputs["address"]),
            Crc = (int)Number(inputs["crc"]),
            Length = (int)payload,
            Delay = 5,
            DynPd = (byte)(ack > 0 ? 0x3F : 0),
            Feature = (byte)(ack > 0 ? 0x06 : 0),
        };
        var pair = new Pair { Link = link }.Start().Load((int)payload);
        if (ack > 0)
            pair.Receiver.Transfer([Command.WAckPayload | 1, .. Pair.Payload(ack)]);
        var upload = 8 * payload / Number(inputs["spi"].Split(' ')[0]);

        Assert.Equal(Number(row["expected"]), upload + pair.TimeTo(StatusFlags.TxDs) + Number(inputs["T_IRQ"]), 9);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
