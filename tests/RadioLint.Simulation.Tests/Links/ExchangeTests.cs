using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>Places in the nRF24L01+ Product Specification 1.0.</summary>
public class ExchangeTests
{
    /// <summary>7.4.1 p33: the payload arrives, both ends say so, and the sender's FIFO is empty.</summary>
    [Fact]
    public void A_packet_and_its_acknowledgement()
    {
        var pair = new Pair().Start().Load(8).Pulse();

        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(0x11, pair.Sender.Read(Register.FifoStatus));
        Assert.Equal(StatusFlags.RxDr, pair.Receiver.Status & StatusFlags.All);
        Assert.Equal(1, (pair.Receiver.Status >> 1) & 7);
        Assert.Equal(Pair.Payload(8), pair.Receiver.RxFifo.Payload(0).ToArray());
        Assert.Equal(2, pair.Air.Packets);
        Assert.Empty(pair.Sender.Violations);
        Assert.Empty(pair.Receiver.Violations);
    }

    /// <summary>Table 19 p42: 130 + T_OA + 130 + T_ACK from CE to TX_DS, with T = (8 (1 + AW + N + CRC) + 9) / rate.</summary>
    [Theory]
    [InlineData(AirRate.Mbps1, 5, 2, 470)]
    [InlineData(AirRate.Mbps2, 5, 2, 365)]
    [InlineData(AirRate.Kbps250, 5, 2, 1100)]
    [InlineData(AirRate.Mbps1, 3, 2, 438)]
    [InlineData(AirRate.Mbps1, 5, 1, 454)]
    public void Time_from_ce_to_tx_ds(AirRate rate, int width, int crc, double expected)
    {
        var pair = new Pair { Link = new() { Rate = rate, Width = width, Crc = crc } }.Start().Load(8);

        Assert.Equal(expected, pair.TimeTo(StatusFlags.TxDs));
    }
}
