using System.Globalization;
using RadioLint.Hardware;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;
using static RadioLint.Tests.Support.SmallNetwork;

namespace RadioLint.Tests.Radio;

/// <summary>
/// The worked check values of radio-checks.csv, each with its source in the row, through the public model: a network that implies the
/// value is built and the image or the timing taken. What no manifest can reach is excused by name.
/// </summary>
public sealed class RadioCheckTests
{
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Rows = FactTable.Read("radio-checks.csv");

    private static readonly (string Kind, string Reason)[] OutOfReach =
    [
        ("preamble", "made by the chip while it sends; no register holds it"),
        ("crc", "computed by the chip while it sends; no register holds it"),
        ("crystal_start", "a property of the module's crystal, which the manifest does not describe"),
        ("crystal_load", "a property of the module's crystal, which the manifest does not describe"),
        ("charge", "belongs to battery life, which is not judged yet"),
        ("nrf51_address", "another family's registers"),
        ("nrf51_crc_registers", "another family's registers"),
    ];

    [Fact]
    public void Every_row_agrees_or_is_excused()
    {
        var (agreed, excused) = (0, 0);
        foreach (var row in Rows)
        {
            if (OutOfReach.Any(one => one.Kind == row["kind"]))
            {
                excused++;
                continue;
            }
            Assert.True(
                row["expected"] == Computed(row), $"{row["id"]} {row["inputs"]}: expected {row["expected"]}, computed {Computed(row)} ({row["source"]})");
            agreed++;
        }
        Assert.Equal((45, 20), (agreed, excused));
    }

    private static string Computed(IReadOnlyDictionary<string, string> row)
    {
        var inputs = row["inputs"].Split("; ").Select(part => part.Split('=')).Where(part => part.Length == 2)
            .ToDictionary(part => part[0], part => part[1], StringComparer.Ordinal);
        return row["kind"] switch
        {
            "time_on_air" => Number(OnAir.Packet(RateOf(inputs), Int(inputs, "address"), Int(inputs, "payload"), Int(inputs, "crc"), inputs["control_field"] == "9")),
            "esb_cycle" => Number(Cycle(inputs)),
            "ard_min" => Number(RadioParts.Find("nRF24L01+")!.LeastRetryDelay(RateOf(inputs), Int(inputs, "ack_payload"))!.Delay),
            "fail_time" => Number(OnAir.GivingUp(
                RateOf(inputs), Int(inputs, "address"), Int(inputs, "payload"), Int(inputs, "crc"),
                Duration.FromMicroseconds(Int(inputs, "ard")), Int(inputs, "arc"), Spi(inputs))),
            "setup_retr" => Hex(ImageOf(With(far: $"retry: {{ delay: {inputs["ard"]} us, limit: {inputs["arc"]} }}"), "far")[Registers.SetupRetr]!.Value[0]),
            "rf_setup" => Hex(ImageOf(With(air: $"rate: {RateOf(inputs).InManifest()}", far: $"power: {inputs["power"]}"), "far")[Registers.RfSetup]!.Value[0]),
            "channel" => Centre(Int(inputs, "RF_CH")),
            "band_edge" => Edges(row["inputs"]),
            "rx_addr_bytes" => PipeFrame(row["id"]),
            "ptx_addresses" => SenderAddresses(),
            "address_level_shifts" => LevelChanges(row["inputs"]),
            "config_byte" => Config(row["inputs"]),
            "rpd_wait" => Number(RadioParts.Find("nRF24L01+")!.Timing.Settle.Value + RadioParts.Find("nRF24L01+")!.Timing.Detector.Value),
            "si24r1_power" => LookAlikePower(Convert.ToByte(row["inputs"].Split(' ')[2], 16)),
            "crystal_error" => CrystalError(),
            _ => "no way to compute it",
        };
    }

    private static Duration Cycle(Dictionary<string, string> inputs)
    {
        var rate = RateOf(inputs);
        return OnAir.Cycle(rate, Int(inputs, "address"), Int(inputs, "payload"), Int(inputs, "crc"), Int(inputs, "ack_payload"), Spi(inputs));
    }

    // Through the image: the channel register holds n, and the profile says where that is.
    private static string Centre(int channel)
    {
        var text = With().Replace("channel: 74", $"channel: {channel}", StringComparison.Ordinal);
        var held = ImageOf(text, "far")[Registers.RfCh]!.Value[0];
        return (RadioParts.Find("nRF24L01+")!.Channel.Carrier(held).Hertz / 1_000_000).ToString(CultureInfo.InvariantCulture);
    }

    private static string Edges(string inputs)
    {
        var part = RadioParts.Find("nRF24L01+")!;
        var rate = inputs.StartsWith("rate=1M", StringComparison.Ordinal) ? DataRate.Mbps1 : DataRate.Mbps2;
        var band = Emission.Around(part.Channel.Carrier(83), part.Rate(rate)!.Width.Value, new Share(0));
        return $"{Mhz(band.Low)} to {Mhz(band.High)}";
    }

    private static string PipeFrame(string id)
    {
        var image = ImageOf(With(hub: "pipes: { 1: 0xB3B4B5B6F1, 5: 0x05 }"), "hub");
        var register = id == "W31" ? 0x0B : 0x0F;
        return string.Join(' ', image.Frames.Single(frame => frame.Register == register).Bytes.Select(one => one.ToString("X2", CultureInfo.InvariantCulture)));
    }

    private static string SenderAddresses()
    {
        var image = ImageOf(With(hub: "pipes: { 1: 0xB3B4B5B6F1, 5: 0x05 }", link: "pipe: 5"), "far");
        var (to, back) = (image[Registers.TxAddr]!.Value, image[Registers.RxAddrP0]!.Value);
        Assert.Equal(to.ToArray(), back.ToArray());
        return $"TX_ADDR = RX_ADDR_P0 = 0x{string.Concat(to.Reverse().Select(one => one.ToString("X2", CultureInfo.InvariantCulture)))}";
    }

    private static string LevelChanges(string inputs)
    {
        Assert.True(AddressKeys.TryHex(inputs.Split(' ')[1].TrimEnd(';'), out var bytes));
        return new Address(bytes).LevelChanges().ToString(CultureInfo.InvariantCulture);
    }

    private static string Config(string inputs) => Hex((inputs.StartsWith("PRX", StringComparison.Ordinal)
        ? ImageOf(With(hubPins: "irq: GPIO4"), "hub")
        : ImageOf(With(air: "crc: 1 byte").Replace("csn: D10", "csn: D10, irq: { pin: D2, for: [sent, gave up] }", StringComparison.Ordinal), "far"))
        [Registers.Config]!.Value[0]);

    // The look-alike's own step for the byte that a plan for the original would write.
    private static string LookAlikePower(byte setup)
    {
        var step = RadioParts.Find("Si24R1")!.PowerSteps.Single(one => one.Bits == (setup & 0x07));
        return $"{step.Step}; {step.Draws}";
    }

    private static string CrystalError()
    {
        var part = RadioParts.Find("nRF24L01+")!;
        var one = part.Channel.Carrier(83).Hertz * part.CrystalTolerance.Value.Millionths / 1_000_000;
        return string.Create(CultureInfo.InvariantCulture, $"{one / 1_000m:0.00} and {2 * one / 1_000m:0.00}");
    }

    private static DataRate RateOf(Dictionary<string, string> inputs) => inputs["rate"] switch
    {
        "250k" => DataRate.Kbps250,
        "1M" => DataRate.Mbps1,
        _ => DataRate.Mbps2,
    };

    private static Frequency Spi(Dictionary<string, string> inputs) => Frequency.FromMegahertz(int.Parse(inputs["spi"].Split(' ')[0], CultureInfo.InvariantCulture));

    private static int Int(Dictionary<string, string> inputs, string name) => int.Parse(inputs[name], CultureInfo.InvariantCulture);

    private static string Number(Duration time) => (time.Nanoseconds / 1_000m).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Mhz(Frequency frequency) => (frequency.Hertz / 1_000_000m).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Hex(byte value) => "0x" + value.ToString("X2", CultureInfo.InvariantCulture);
}
