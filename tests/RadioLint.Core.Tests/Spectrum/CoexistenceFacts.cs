using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Tests.Hardware;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Two networks of this kind beside each other.</summary>
public sealed class CoexistenceFacts
{
    private static readonly RadioPart Part = RadioParts.Find("nRF24L01+")!;

    // nRF24L01+ Product Specification v1.0, Table 9: the first distance at which the other network may be the stronger one; at 250 kbps
    // crystals of 60 ppm (Table 11) move two carriers together by 298 kHz (W65 of radio-checks.csv), more than the 160 kHz of deviation.
    [Theory, InlineData(DataRate.Mbps1), InlineData(DataRate.Mbps2)]
    public void The_least_distance_is_where_the_table_turns_negative(DataRate rate)
    {
        var least = Coexistence.LeastSpacing(rate);
        Assert.True(Part.Interference.NeededAgainstOwnKind(rate, least)!.Value.Centi < 0);
        Assert.True(Part.Interference.NeededAgainstOwnKind(rate, least - Frequency.FromMegahertz(1))!.Value.Centi > 0);
        Assert.Equal(rate is DataRate.Mbps2 ? -2400 : -3000, Part.Interference.NeededAgainstOwnKind(rate, Coexistence.GoodSpacing(rate))!.Value.Centi);
        Assert.Equal(Coexistence.LeastSpacing(DataRate.Mbps1), Coexistence.LeastSpacing(DataRate.Kbps250));
    }

    [Theory]
    [InlineData(2474, 2475, DataRate.Mbps1, null, true)]
    [InlineData(2474, 2476, DataRate.Mbps1, null, false)]
    [InlineData(2476, 2473, null, DataRate.Mbps2, true)]
    [InlineData(2477, 2473, DataRate.Kbps250, DataRate.Mbps2, false)]
    [InlineData(2474, 2474, null, null, false)]
    public void The_wider_need_counts_and_an_unknown_rate_needs_nothing(int one, int other, DataRate? rate, DataRate? otherRate, bool isTooClose)
    {
        Assert.Equal(isTooClose, Coexistence.IsTooClose(Air(one, rate), Air(other, otherRate)));
        Assert.Equal(isTooClose, Coexistence.IsTooClose(Air(other, otherRate), Air(one, rate)));
    }

    [Fact]
    public void Addresses_clash_by_all_but_their_last_byte_on_one_carrier_at_one_rate()
    {
        var ours = Air(2474, DataRate.Mbps1, 0xC2A7D19B33, 0x31A7D19B01);
        Assert.Null(Coexistence.SharedPrefix(ours, Air(2475, DataRate.Mbps1, 0xC2A7D19B33)));
        Assert.Null(Coexistence.SharedPrefix(ours, Air(2474, DataRate.Mbps2, 0xC2A7D19B33)));
        Assert.Null(Coexistence.SharedPrefix(ours, Air(2474, DataRate.Mbps1, 0xC2A7D19A33)));
        Assert.Null(Coexistence.SharedPrefix(ours, Air(2474, DataRate.Mbps1)));
        Assert.Equal((ours.Addresses[0].Address, 0x7F), Shared(Air(2474, DataRate.Mbps1, 0xC2A7D19B7F)));
        // Whoever has the same address whole is named before whoever comes near.
        Assert.Equal((ours.Addresses[1].Address, 0x01), Shared(Air(2474, null, 0xC2A7D19B7F, 0x31A7D19B01)));

        (Address, int)? Shared(NetworkOnAir theirs) => Coexistence.SharedPrefix(ours, theirs) is var (one, other) ? (one.Address, other.Address.LowByte) : null;
    }

    [Fact]
    public void A_network_is_on_air_once_for_each_carrier_and_rate()
    {
        var network = SmallNetwork.Read(SmallNetwork.With(far: "air: { channel: 20 }", link: "address: 0xC2A7D19B33", links: "  - { from: hub, to: far, payload: order, address: 0x31A7D19B01 }"));
        var air = NetworkOnAir.Of(network);
        Assert.Equal([2420, 2474], air.Select(one => (int)Ours.Megahertz(one.Carrier)));
        Assert.Equal(["far", "hub"], air.Select(one => Assert.Single(one.Addresses).Owner));
        Assert.Equal("0x31A7D19B01", $"{air[0].Addresses[0].Address}");
        Assert.Equal(DataRate.Mbps1, air[0].Rate);
    }

    private static NetworkOnAir Air(int megahertz, DataRate? rate, params ulong[] addresses) => new(
        Frequency.FromMegahertz(megahertz), rate,
        [.. addresses.Select(bits => new AddressOnAir(new([.. new RegisterValue(bits, 5).LeastFirst().Reverse()]), default, "hub"))]);
}
