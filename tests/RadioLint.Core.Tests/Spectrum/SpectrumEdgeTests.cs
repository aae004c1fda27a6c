using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Tests.Hardware;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Neighbours that say little, antennas that say nothing, and links that count otherwise: what holds then. Check values are arithmetic.</summary>
public sealed class SpectrumEdgeTests
{
    [Theory]
    [InlineData(1, 5, null, true), InlineData(6, null, 40_000_000L, true), InlineData(6, null, 39_999_999L, false), InlineData(6, null, null, false), InlineData(6, null, 80_000_000L, true)]
    public void Wide_neighbours(int channel, int? partner, long? width, bool isWide) => Assert.Equal(isWide, NeighbourPlans.Wifi.IsWide(Wifi(channel, partner, width)));

    // Channels of 5 MHz from 2412 MHz; halves of a pair are 4 channels apart (IEEE 802.11). A width of 40 MHz alone may be the pair below or the one above.
    [Theory]
    [InlineData(1, null, 40_000_000L, 2_402, 2_442)]
    [InlineData(4, null, 40_000_000L, 2_417, 2_457)]
    [InlineData(5, null, 40_000_000L, 2_402, 2_462)]
    [InlineData(6, null, 40_000_000L, 2_407, 2_467)]
    [InlineData(13, null, 40_000_000L, 2_442, 2_482)]
    [InlineData(1, 5, null, 2_402, 2_442)]
    [InlineData(5, 1, 30_000_000L, 2_407, 2_437)]
    [InlineData(6, null, null, 2_427, 2_447)]
    [InlineData(6, null, 30_000_000L, 2_422, 2_452)]
    [InlineData(14, null, null, 2_473, 2_495)]
    [InlineData(14, null, 20_000_000L, 2_474, 2_494)]
    public void What_a_wifi_neighbour_fills(int channel, int? partner, long? width, int low, int high) => Assert.Equal(
        new Between<Frequency>(Frequency.FromMegahertz(low), Frequency.FromMegahertz(high)), NeighbourPlans.Wifi.Occupied(Wifi(channel, partner, width)));

    // 0 dBi for a printed antenna and 2 dBi for a whip where none is stated (common practice, no source).
    [Theory]
    [InlineData("{ kind: printed }", 0, 0), InlineData("{ kind: whip }", 200, 0), InlineData("{ kind: whip, gain: 5 dBi, cable: 1.5 dB }", 500, 150), InlineData("{ kind: printed, gain: -1 dBi }", -100, 0)]
    [InlineData("{ gain: 3 dBi }", 300, 0), InlineData("{ kind: printed, cable: 0.5 dB }", 0, 50)]
    public void Antennas_by_their_kind(string antenna, int gain, int cable) =>
        Assert.Equal((new Gain(gain), new Gain(cable)), LinkBudget.Antenna(Far($"radio: {{ part: nRF24L01+, antenna: {antenna} }}")));

    [Theory]
    [InlineData("radio: { part: nRF24L01+, antenna: none }"), InlineData("radio: { part: nRF24L01+, antenna: dummy load }"), InlineData("radio: { part: nRF24L01+ }")]
    public void Nothing_to_radiate_with(string far) => Assert.Null(LinkBudget.Antenna(Far(far)));

    // 0 dBm and 2 dBi less 60 dB: -58 dBm at the other antenna, -56 dBm behind its 3 dBi and 1 dB of cable; -85 dBm at 1 Mbps (nRF24L01+ Product Specification 1.0, Table 7).
    [Fact]
    public void A_budget_from_end_to_end()
    {
        var network = SmallNetwork.Read(SmallNetwork.With(
            "rate: 1 Mbps", "radio: { part: nRF24L01+, antenna: { kind: whip, gain: 3 dBi, cable: 1 dB } }", "radio: { part: nRF24L01+, antenna: { kind: whip } }, power: 0 dBm"));
        var budget = LinkBudget.Of(network.Nodes[1], network.Nodes[0], DataRate.Mbps1, new(6_000))!;
        Assert.Equal((200, -5_600, -8_500, 2_900), (budget.Radiated.Centi, budget.Received.Centi, budget.Sensitivity.Centi, budget.Margin.Centi));
        Assert.Equal(budget.Received, LinkBudget.AtChip(network.Nodes[0], budget.Received));
        Assert.Null(LinkBudget.Of(Far("wires: 5 cm"), network.Nodes[0], DataRate.Mbps1, new(6_000)));
        Assert.Null(LinkBudget.Of(network.Nodes[1], Far("wires: 5 cm"), DataRate.Mbps1, new(6_000)));
    }

    // A preamplifier of 12 dB (value from memory) makes a strong signal stronger.
    [Fact]
    public void A_preamplifier_adds_its_gain_at_the_chip() =>
        Assert.Equal(-2_800, LinkBudget.AtChip(Far("radio: { part: nRF24L01+, front-end: RFX2401C }"), new(-4_000)).Centi);

    // 47 CFR 15.35 (c) as REG-05 works it: a tenth of the window is 20 dB less, the whole of it or more nothing.
    [Theory, InlineData(10, -2_000), InlineData(99, -9), InlineData(100, 0), InlineData(101, 0)]
    public void Average_over_a_window(int sent, int centi) => Assert.Equal(
        new PowerLevel(centi), Eirp.Average(new(0), Duration.FromMicroseconds(sent * 1_000), Duration.FromMicroseconds(100_000)));

    [Theory]
    [InlineData("antenna: { kind: whip, gain: 2 dBi, cable: 1 dB }", "0 dBm at the chip, antenna 2 dBi, cable -1 dB", 100, false)]
    [InlineData("antenna: { kind: whip, gain: 2 dBi, cable: 0 dB }", "0 dBm at the chip, antenna 2 dBi", 200, false)]
    [InlineData("antenna: { kind: whip }", "0 dBm at the chip, antenna unknown and counted as 0 dBi", 0, true)]
    [InlineData("front-end: RFX2401C, antenna: { gain: 2 dBi }", "0 dBm at the chip, 22 dBm behind RFX2401C, antenna 2 dBi", 2_400, false)]
    public void Steps_of_what_is_radiated(string radio, string steps, int centi, bool isLowerBound) =>
        Assert.Equal(new Eirp(new(centi), isLowerBound, steps), Eirp.Of(Far($"radio: {{ part: nRF24L01+, {radio} }}, power: 0 dBm")));

    // Over a kilometre of open ground with both antennas 1 m up: 40 log 1000 (plane earth, value from memory), and what stands between.
    [Fact]
    public void Open_ground_takes_more_than_free_space()
    {
        Assert.Equal(new Gain(12_000), PathEstimate.Most(Setting.Open, new(1_000_000), new(1_000), new(1_000), []));
        Assert.Equal(PathLoss.FreeSpace(PathLoss.MidBand, new(1_000_000)), PathEstimate.Most(Setting.Open, new(1_000_000), new(1_000), null, []));
        Assert.Equal(PathLoss.FreeSpace(PathLoss.MidBand, new(1_000_000)), PathEstimate.Most(Setting.Open, new(1_000_000), null, new(1_000), []));
        Assert.Equal(PathLoss.FreeSpace(PathLoss.MidBand, new(100_000)), PathEstimate.Most(Setting.Open, new(100_000), new(10_000), new(10_000), []));
    }

    // In a hall 22 a decade begins below free space: 41.49 dB against 41.77 dB at 1.2 m; from about 1.7 m on it is above.
    [Theory, InlineData(1_000, 4_020), InlineData(1_200, 4_178), InlineData(10_000, 6_175)]
    public void In_a_hall_the_worse_of_the_two(int millimetres, int centi) => Assert.Equal(
        new Gain(centi), PathLoss.Indoors(PathLoss.MidBand, new(millimetres), PathLoss.PerDecade(Setting.Hall)));

    // A front end that nobody knows says nothing: no figure of it may be guessed.
    [Fact]
    public void A_front_end_that_is_not_known()
    {
        var far = Far("radio: { part: nRF24L01+, front-end: XYZ123, antenna: { kind: whip, gain: 2 dBi } }, power: 0 dBm");
        Assert.NotNull(far.Radio.FrontEnd);
        Assert.Null(Eirp.Of(far));
        Assert.Null(LinkBudget.Conducted(far));
        Assert.Null(LinkBudget.SensitivityOf(far, DataRate.Mbps1));
        Assert.Null(RadioLint.Power.PeakCurrent.Sending(far));
        Assert.Null(RadioLint.Power.PeakCurrent.Receiving(far));
        Assert.Null(RadioLint.Power.PeakCurrent.OfRadio(far));
    }

    // 100 bytes in packets of 32 are four; events and periods alike.
    [Theory]
    [InlineData("every: 1 min, message: 100 bytes", 4, 60), InlineData("every: 1 min, message: 96 bytes", 3, 60), InlineData("every: 1 min, message: 97 bytes", 4, 60), InlineData("every: 1 min", 1, 60)]
    [InlineData("events: 5 per minute, message: 100 bytes", 20, 60), InlineData("events: 5 per minute", 5, 60)]
    public void Packets_of_a_link(string link, int packets, int seconds)
    {
        var hop = Plan(link).Sends[0];
        Assert.Equal(((long)packets, new Duration(seconds * 1_000_000_000L)), Traffic.Rate(hop));
    }

    [Fact]
    public void A_link_without_a_period_says_nothing() => Assert.Null(Traffic.Rate(Plan("distance: 2 m").Sends[0]));

    // (1 + 5 + 32 + 2) x 8 + 9 bits, 130 us, (1 + 5 + 2) x 8 + 9 bits at 1 Mbps (nRF24L01+ Product Specification 1.0, Tables 16 and 19); without acknowledgement 9 bits less where no pipe gives one.
    [Theory, InlineData("every: 1 min", 329, 73, 532, 15), InlineData("every: 1 min, acknowledge: false", 329, 0, 329, 0)]
    public void What_a_try_keeps(string link, int packet, int answer, int busy, int repetitions)
    {
        var plan = Plan(link, "links-back");
        var hop = plan.Sends[0];
        Assert.Equal(
            (Duration.FromMicroseconds(packet), Duration.FromMicroseconds(answer), Duration.FromMicroseconds(busy), repetitions),
            (Traffic.Packet(plan, hop), Traffic.Acknowledgement(plan, hop), Traffic.Busy(plan, hop), Traffic.Repetitions(plan, hop)));
    }

    // Rising carriers, and of one carrier rising rates.
    [Fact]
    public void A_network_on_air_in_order()
    {
        var network = SmallNetwork.Read("""
            radiolint: 1
            network: cellar
            region: GB
            air: { channel: 74, rate: 2 Mbps }
            nodes:
              a: { board: atmega328p, pins: { ce: D9, csn: D10 } }
              b: { board: atmega328p, pins: { ce: D9, csn: D10 }, air: { rate: 250 kbps } }
              c: { board: atmega328p, pins: { ce: D9, csn: D10 }, air: { channel: 20 } }

            """);
        Assert.Equal([(2_420, DataRate.Mbps2), (2_474, DataRate.Kbps250), (2_474, DataRate.Mbps2)], NetworkOnAir.Of(network).Select(air => ((int)Ours.Megahertz(air.Carrier), air.Rate!.Value)));
    }

    private static WifiNeighbour Wifi(int channel, int? partner, long? width) => new(channel, partner, width is { } hertz ? new Frequency(hertz) : null, null);

    private static Node Far(string far) => SmallNetwork.Read(SmallNetwork.With(far: far)).Nodes[1];

    // Where a link comes back, the sender's own packets keep their nine bits whatever they ask for.
    private static NodePlan Plan(string link, string back = "") => SmallNetwork.Read($$"""
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        nodes:
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
          far: { board: atmega328p, pins: { ce: D9, csn: D10 } }
        links:
          - { from: far, to: hub, payload: reading, {{link}} }
        {{(back.Length > 0 ? "  - { from: hub, to: far, payload: reading, every: 1 h }" : "")}}
        payloads: { reading: { body: bytes 32 } }

        """).Plan.Nodes.Single(plan => plan.Node.Name == "far");
}
