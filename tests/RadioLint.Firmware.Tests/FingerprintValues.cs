using RadioLint.Emit;
using RadioLint.Facts;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Canonical texts written out, and their digests as `sha256sum` of GNU coreutils gives them: the first 8 digits, in capitals.</summary>
public sealed class FingerprintValues : IDisposable
{
    private const string Cellar = """
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: 74, rate: 250 kbps, crc: 1 byte }
        nodes:
          hall: { board: esp32, wires: 5 cm, supply: { from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }, pins: { ce: GPIO27, csn: GPIO5 } }
          cellar: { board: atmega328p, wires: 5 cm, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, pins: { ce: tied high, csn: D10 }, air: { retry: { delay: 500 us, limit: 3 } } }
        links: [ { from: cellar, to: hall, payload: reading, every: 1 min, address: 0xC2A7D19B33, pipe: 1 } ]
        payloads:
          reading: { temperature: int16 0.10 degC in -20..40, flags: { bits: { low: 1, level: 3 } }, version: uint8 = 2 }
        """;

    // Channel in kHz, rate in bits a second: base units. Layouts without ranges and roles, which are the sender's business.
    private const string OfNetwork = """
        radiolint fingerprint 1
        acknowledge=true
        address-width=5
        channel=2474000
        crc=1
        payload-length=dynamic
        payload.reading.byte-order=little
        payload.reading.field.00.count=1
        payload.reading.field.00.name=temperature
        payload.reading.field.00.offset=0
        payload.reading.field.00.scale=0.1
        payload.reading.field.00.type=int16
        payload.reading.field.00.unit=degC
        payload.reading.field.01.bit.00=low 1
        payload.reading.field.01.bit.01=level 3
        payload.reading.field.01.count=1
        payload.reading.field.01.name=flags
        payload.reading.field.01.offset=2
        payload.reading.field.01.scale=1
        payload.reading.field.01.type=bits
        payload.reading.field.01.unit=
        payload.reading.field.02.count=1
        payload.reading.field.02.name=version
        payload.reading.field.02.offset=3
        payload.reading.field.02.scale=1
        payload.reading.field.02.type=uint8
        payload.reading.field.02.unit=
        payload.reading.field.02.value=2
        payload.reading.size=4
        rate=250000

        """;

    private const string OfCellar = """
        radiolint digest 1
        frame.00=2008
        frame.01=2101
        frame.02=2201
        frame.03=2303
        frame.04=2413
        frame.05=254A
        frame.06=2626
        frame.07=30339BD1A7C2
        frame.08=2A339BD1A7C2
        frame.09=3C01
        frame.10=3D04
        frame.11=2770
        frame.12=E1
        frame.13=E2
        frame.14=200A
        link.to.hall.reading.acknowledge=true
        link.to.hall.reading.address=C2A7D19B33
        payload.reading.04.byte-order=little
        payload.reading.04.field.00.count=1
        payload.reading.04.field.00.high=40
        payload.reading.04.field.00.low=-20
        payload.reading.04.field.00.name=temperature
        payload.reading.04.field.00.offset=0
        payload.reading.04.field.00.scale=0.1
        payload.reading.04.field.00.type=int16
        payload.reading.04.field.00.unit=degC
        payload.reading.04.field.01.bit.00=low 1
        payload.reading.04.field.01.bit.01=level 3
        payload.reading.04.field.01.count=1
        payload.reading.04.field.01.name=flags
        payload.reading.04.field.01.offset=2
        payload.reading.04.field.01.scale=1
        payload.reading.04.field.01.type=bits
        payload.reading.04.field.01.unit=
        payload.reading.04.field.02.count=1
        payload.reading.04.field.02.name=version
        payload.reading.04.field.02.offset=3
        payload.reading.04.field.02.role=version
        payload.reading.04.field.02.scale=1
        payload.reading.04.field.02.type=uint8
        payload.reading.04.field.02.unit=
        payload.reading.04.field.02.value=2
        payload.reading.04.size=4
        pin.ce=tied high
        pin.csn=PB2
        pin.miso=PB4
        pin.mosi=PB3
        pin.sck=PB5

        """;

    private const string OfReading = """
        radiolint layout 1
        byte-order=little
        field.00.count=1
        field.00.name=temperature
        field.00.offset=0
        field.00.scale=0.1
        field.00.type=int16
        field.00.unit=degC
        field.01.bit.00=low 1
        field.01.bit.01=level 3
        field.01.count=1
        field.01.name=flags
        field.01.offset=2
        field.01.scale=1
        field.01.type=bits
        field.01.unit=
        field.02.count=1
        field.02.name=version
        field.02.offset=3
        field.02.scale=1
        field.02.type=uint8
        field.02.unit=
        field.02.value=2
        size=4

        """;

    private readonly Workshop shop = new();

    public static TheoryData<string, string> Worked() => new()
    {
        { OfNetwork, "54E84DEE" },
        { OfCellar, "E4B400B5" },
        { OfReading, "3A9647D8" },
    };

    public void Dispose() => shop.Dispose();

    [Theory, MemberData(nameof(Worked))]
    public async Task Digests_are_those_of_another_tool(string text, string digest)
    {
        shop.Write("canonical.txt", text);
        Assert.StartsWith(digest, (await shop.MustRun("sha256sum", "canonical.txt")).ToUpperInvariant(), StringComparison.Ordinal);
    }

    [Fact]
    public void Texts_and_digests_of_a_network()
    {
        var network = Emitted.Network("cellar.radio.yaml", Cellar);
        var (air, reading) = (Fingerprint.OfNetwork(network.Air, network.Payloads), Fingerprint.OfLayout(network.Payloads[0]));
        var cellar = Fingerprint.OfNode(NodeFacts.Of(network, network.Plan.Nodes[1])!);
        Assert.Equal([OfNetwork, OfCellar, OfReading], [air.ToString(), cellar.ToString(), reading.ToString()]);
        Assert.Equal(["54E84DEE", "E4B400B5", "3A9647D8"], [air.ToDigest(), cellar.ToDigest(), reading.ToDigest()]);

        var headers = EmitSet.Headers(network).Headers;
        Assert.Equal(["cellar", "hall"], headers.Select(one => one.Header.Node));
        Assert.Equal("E4B400B5", headers[0].Header.Digest);
        Assert.All(headers, one => Assert.Equal("54E84DEE", one.Header.Fingerprint));
    }

    // Another wording of the same facts: other order, other units, comments, defaults written out.
    [Fact]
    public void Wording_and_order_do_not_matter()
    {
        var other = Cellar
            .Replace("air: { channel: 74, rate: 250 kbps, crc: 1 byte }", "air: { crc: 1 byte, payload-length: dynamic, rate: 250 kbps, channel: 2474 MHz } # as before", StringComparison.Ordinal)
            .Replace("0.10 degC in -20..40", "0.1 degC in -20.0..40", StringComparison.Ordinal)
            .Replace("delay: 500 us", "delay: 0.5 ms", StringComparison.Ordinal);
        Assert.NotEqual(Cellar, other);
        Assert.Equal(Digests(Cellar), Digests(other));
    }

    [Theory]
    [InlineData("channel: 74", "channel: 75", true, true)]
    [InlineData("rate: 250 kbps", "rate: 1 Mbps", true, true)]
    [InlineData("int16 0.10 degC", "int16 0.2 degC", true, true)]
    [InlineData("= 2", "= 3", true, true)]
    [InlineData("low: 1, level: 3", "level: 3, low: 1", true, true)]
    [InlineData("in -20..40", "in -20..41", false, true)]
    [InlineData("csn: D10", "csn: D8", false, true)]
    [InlineData("delay: 500 us", "delay: 750 us", false, true)]
    [InlineData("0xC2A7D19B33", "0xC2A7D19B35", false, true)]
    [InlineData("every: 1 min", "every: 2 min", false, false)]
    [InlineData("csn: GPIO5", "csn: GPIO15", false, false)]
    public void What_changes_network_and_sender(string from, string to, bool network, bool node)
    {
        var changed = Cellar.Replace(from, to, StringComparison.Ordinal);
        Assert.NotEqual(Cellar, changed);
        var ((fingerprint, digest), (fingerprintNow, digestNow)) = (Digests(Cellar), Digests(changed));
        Assert.Equal(network, fingerprint != fingerprintNow);
        Assert.Equal(node, digest != digestNow);
    }

    [Fact]
    public void A_line_break_in_a_value_poses_as_no_other_fact()
    {
        var (one, two) = (new Canonical("layout"), new Canonical("layout"));
        one.Add("a", "1\nb=2");
        two.Add("a", "1");
        two.Add("b", "2");
        Assert.NotEqual(two.ToString(), one.ToString());
        Assert.Equal("radiolint layout 1\na=1\\nb=2\n", one.ToString());
    }

    private static (string Fingerprint, string Digest) Digests(string manifest)
    {
        var header = EmitSet.Headers(Emitted.Network("cellar.radio.yaml", manifest)).Headers.Single(one => one.Header.Node == "cellar").Header;
        return (header.Fingerprint, header.Digest);
    }
}
