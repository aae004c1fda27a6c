using RadioLint.Spectrum;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Levels at which packets, not bits, get through; fading and interferers beside the rows that RangeExampleTests reads.</summary>
public sealed class PacketSensitivityFacts
{
    // LINK-06 and LINK-07 of the worked examples: at the stated sensitivity 27.47 % of packets of 321 bits are lost, 12.11 % of those of 129: for just so many nothing more is needed.
    [Theory, InlineData("LINK-06"), InlineData("LINK-07")]
    public void At_the_stated_sensitivity_as_many_are_lost_as_published(string id)
    {
        var row = Published.Rows("worked-examples.csv").Single(one => one["id"] == id);
        var (lost, bits) = (new Share((long)(row.Number("result") * 1_000_000)), int.Parse(row.Input("bits"), System.Globalization.CultureInfo.InvariantCulture));
        Assert.InRange(PacketSensitivity.More(lost, bits).Centi, -1, 1);
        Assert.InRange(PacketSensitivity.BitErrors(lost, bits), 0.00099, 0.00101);
    }

    // 1 % of 321 bits: bit errors 1 - 0.99^(1/321) = 3.131e-5; ln(6.262e-5) / ln(0.002) = 9.6785 / 6.2146 = 1.5574, 1.92 dB (formula of PacketSensitivity).
    [Fact]
    public void Fewer_losses_and_longer_packets_need_more()
    {
        Assert.Equal(192, PacketSensitivity.More(new(10_000), 321).Centi);
        Assert.Equal(-8_308, PacketSensitivity.Of(new(-8_500), new(10_000), 321).Centi);
        var last = new Gain(-10_000);
        foreach (var bits in new[] { 1, 8, 65, 129, 321 })
        {
            Assert.True(PacketSensitivity.More(new(10_000), bits) > last, $"{bits} bits");
            Assert.True(PacketSensitivity.More(new(1_000), bits) > PacketSensitivity.More(new(10_000), bits), $"{bits} bits");
            last = PacketSensitivity.More(new(10_000), bits);
        }
    }

    // PROP-14 turned round: 9.516 % need 10 dB, 0.995 % need 20 dB.
    [Fact]
    public void A_margin_is_told_from_the_share_of_places()
    {
        Assert.Equal(1_000, Fading.Margin(new(95_163)).Centi);
        Assert.Equal(2_000, Fading.Margin(new(9_950)).Centi);
        Assert.True(Fading.Outage(new(-1_000)).Millionths > 999_900);
        Assert.Contains("a share between 0 and 100 %", Assert.Throws<ArgumentOutOfRangeException>(() => Fading.Margin(new(0))).Message, StringComparison.Ordinal);
    }

    // PROP-02: 60.20 dB over 10 m, 40.20 dB over 1 m.
    [Fact]
    public void A_neighbour_whose_distance_is_a_range_has_a_range_of_levels()
    {
        var heard = InterfererLevel.Over(InterfererLevel.UsualWifi, new(new(1_000), new(10_000)));
        Assert.Equal((-4_020, -2_020), (heard.Low.Centi, heard.High.Centi));
        // Inside the flat part of the mask 20 MHz hold the power evenly: 13.01 dB less in one.
        Assert.Equal(2_000 - 1_301, InterfererLevel.InBand(new(2_000), Frequency.FromMegahertz(20), Frequency.FromMegahertz(3), Frequency.FromMegahertz(1), default).Centi);
        // A pair's mask is twice as wide; beyond its last point it stays.
        Assert.Equal(InterfererLevel.OfdmMask(Frequency.FromMegahertz(13), Frequency.FromMegahertz(20)), InterfererLevel.OfdmMask(Frequency.FromMegahertz(26), Frequency.FromMegahertz(40)));
        Assert.Equal(-4_000, InterfererLevel.OfdmMask(Frequency.FromMegahertz(80), Frequency.FromMegahertz(20)).Centi);
    }
}
