using System.Globalization;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using Xunit;
using static RadioLint.Tests.Support.SmallNetwork;

namespace RadioLint.Tests.Radio;

/// <summary>
/// Every row of the register table (nRF24L01+ Product Specification 1.0, Table 28; the others as the rows say) against the image of a
/// network that implies the value. A row that no manifest can reach stands in <see cref="OutOfReach"/> with its reason.
/// </summary>
public sealed class RegisterRowTests
{
    private const string Plus = "nRF24L01+";
    private const string Dumb = "acknowledge: false, payload-length: exact";
    private const string Six = "each: 1..6";

    private static readonly string Orders = "  - { from: hub, to: far, payload: order, with: acknowledgement }";

    /// <summary>Part, register, field, the network's text, the node, and what the field then holds.</summary>
    private static readonly (string Part, string Register, string Field, string Text, string Node, ulong Value)[] Proofs =
    [
        // Whole-register resets that a plan can imply.
        (Plus, "EN_AA", "", With(far: Six), "hub", 0x3F),
        (Plus, "EN_RXADDR", "", With(hub: "pipes: { 0: 0xB3B4B5B6F0, 1: 0xC3B4B5B6F1 }"), "hub", 0x03),
        (Plus, "SETUP_AW", "", With(), "hub", 0x03),
        (Plus, "SETUP_RETR", "", With(far: "retry: { delay: 250 us, limit: 3 }"), "far", 0x03),
        (Plus, "RF_CH", "", With().Replace("channel: 74", "channel: 2", StringComparison.Ordinal), "far", 0x02),
        (Plus, "RF_SETUP", "", With(air: "rate: 2 Mbps"), "far", 0x0E),
        (Plus, "DYNPD", "", With(air: Dumb), "far", 0x00),
        (Plus, "FEATURE", "", With(air: Dumb), "far", 0x00),
        ("nRF24L01", "RF_SETUP", "", With(air: "rate: 2 Mbps", far: "radio: { part: nRF24L01 }"), "far", 0x0F),
        ("Si24R1", "RF_SETUP", "", With(air: "rate: 2 Mbps", far: "radio: { part: Si24R1 }, power: 4 dBm"), "far", 0x0E),
        // CONFIG
        (Plus, "CONFIG", "MASK_RX_DR", With(hubPins: "irq: { pin: GPIO4, for: [sent, gave up] }"), "hub", 1),
        (Plus, "CONFIG", "MASK_RX_DR", With(hubPins: "irq: { pin: GPIO4, for: received }"), "hub", 0),
        (Plus, "CONFIG", "MASK_TX_DS", With(hubPins: "irq: { pin: GPIO4, for: [received, gave up] }"), "hub", 1),
        (Plus, "CONFIG", "MASK_TX_DS", With(hubPins: "irq: { pin: GPIO4, for: sent }"), "hub", 0),
        (Plus, "CONFIG", "MASK_MAX_RT", With(hubPins: "irq: { pin: GPIO4, for: [received, sent] }"), "hub", 1),
        (Plus, "CONFIG", "MASK_MAX_RT", With(hubPins: "irq: { pin: GPIO4, for: gave up }"), "hub", 0),
        (Plus, "CONFIG", "EN_CRC", With(), "far", 1),
        (Plus, "CONFIG", "EN_CRC", With(air: $"crc: none, {Dumb}"), "far", 0),
        // Forced on while any EN_AA bit is 1: planned as it will read back.
        (Plus, "CONFIG", "EN_CRC", With(air: "crc: none"), "far", 1),
        (Plus, "CONFIG", "CRCO", With(air: "crc: 1 byte"), "far", 0),
        (Plus, "CONFIG", "CRCO", With(air: "crc: 2 bytes"), "far", 1),
        (Plus, "CONFIG", "PWR_UP", With(), "far", 1),
        (Plus, "CONFIG", "PRIM_RX", With(), "far", 0),
        (Plus, "CONFIG", "PRIM_RX", With(), "hub", 1),
        ("Si24R1", "CONFIG", "PRIM_RX", With(hub: "radio: { part: Si24R1 }"), "hub", 1),
        // Air
        (Plus, "SETUP_AW", "AW", With(air: "address-width: 3"), "far", 1),
        (Plus, "SETUP_AW", "AW", With(air: "address-width: 4"), "far", 2),
        (Plus, "SETUP_AW", "AW", With(air: "address-width: 5"), "far", 3),
        (Plus, "SETUP_RETR", "ARD", With(far: "retry: { delay: 1500 us, limit: 10 }"), "far", 5),
        (Plus, "SETUP_RETR", "ARD", With(far: "retry: { delay: 4000 us }"), "far", 15),
        (Plus, "SETUP_RETR", "ARC", With(far: "retry: { delay: 1500 us, limit: 10 }"), "far", 10),
        (Plus, "RF_CH", "RF_CH", With(), "far", 74),
        (Plus, "RF_SETUP", "CONT_WAVE", With(far: "test: carrier"), "far", 1),
        (Plus, "RF_SETUP", "CONT_WAVE", With(), "far", 0),
        (Plus, "RF_SETUP", "RF_DR_LOW", With(air: "rate: 250 kbps"), "far", 1),
        (Plus, "RF_SETUP", "RF_DR_LOW", With(air: "rate: 1 Mbps"), "far", 0),
        (Plus, "RF_SETUP", "PLL_LOCK", With(far: "test: pll-lock"), "far", 1),
        (Plus, "RF_SETUP", "PLL_LOCK", With(), "far", 0),
        (Plus, "RF_SETUP", "RF_DR_HIGH", With(air: "rate: 2 Mbps"), "far", 1),
        (Plus, "RF_SETUP", "RF_DR_HIGH", With(air: "rate: 250 kbps"), "far", 0),
        (Plus, "RF_SETUP", "RF_PWR", With(far: "power: -18 dBm"), "far", 0),
        (Plus, "RF_SETUP", "RF_PWR", With(far: "power: -12 dBm"), "far", 1),
        (Plus, "RF_SETUP", "RF_PWR", With(far: "power: -6 dBm"), "far", 2),
        (Plus, "RF_SETUP", "RF_PWR", With(far: "power: 0 dBm"), "far", 3),
        (Plus, "RF_SETUP", "Obsolete", With(), "far", 0),
        ("nRF24L01", "RF_SETUP", "PLL_LOCK", With(far: "radio: { part: nRF24L01 }, test: pll-lock"), "far", 1),
        // It has no bit for a carrier of its own: the lock alone is set.
        ("nRF24L01", "RF_SETUP", "PLL_LOCK", With(far: "radio: { part: nRF24L01 }, test: carrier"), "far", 1),
        ("nRF24L01", "RF_SETUP", "RF_DR", With(far: "radio: { part: nRF24L01 }"), "far", 0),
        ("nRF24L01", "RF_SETUP", "RF_DR", With(air: "rate: 2 Mbps", far: "radio: { part: nRF24L01 }"), "far", 1),
        ("nRF24L01", "RF_SETUP", "RF_PWR", With(far: "radio: { part: nRF24L01 }, power: -6 dBm"), "far", 2),
        ("nRF24L01", "RF_SETUP", "LNA_HCURR", With(far: "radio: { part: nRF24L01 }"), "far", 1),
        ("Si24R1", "RF_SETUP", "PLL_LOCK", With(far: "radio: { part: Si24R1 }"), "far", 0),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: 7 dBm"), "far", 7),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: 4 dBm"), "far", 6),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: 3 dBm"), "far", 5),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: 1 dBm"), "far", 4),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: 0 dBm"), "far", 3),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: -4 dBm"), "far", 2),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: -6 dBm"), "far", 1),
        ("Si24R1", "RF_SETUP", "RF_PWR", With(far: "radio: { part: Si24R1 }, power: -12 dBm"), "far", 0),
        // Addresses: the factory ones, since they are what the rows state; written, since no plan derives them.
        (Plus, "RX_ADDR_P0", "", With(hub: "pipes: { 0: 0xE7E7E7E7E7 }"), "hub", 0xE7E7E7E7E7),
        (Plus, "RX_ADDR_P1", "", With(hub: "pipes: { 1: 0xC2C2C2C2C2 }"), "hub", 0xC2C2C2C2C2),
        (Plus, "RX_ADDR_P2", "", With(hub: "pipes: { 1: 0xC2C2C2C2C2, 2: 0xC3 }"), "hub", 0xC3),
        (Plus, "RX_ADDR_P3", "", With(hub: "pipes: { 1: 0xC2C2C2C2C2, 3: 0xC4 }"), "hub", 0xC4),
        (Plus, "RX_ADDR_P4", "", With(hub: "pipes: { 1: 0xC2C2C2C2C2, 4: 0xC5 }"), "hub", 0xC5),
        (Plus, "RX_ADDR_P5", "", With(hub: "pipes: { 1: 0xC2C2C2C2C2, 5: 0xC6 }"), "hub", 0xC6),
        (Plus, "TX_ADDR", "", With(link: "address: 0xE7E7E7E7E7"), "far", 0xE7E7E7E7E7),
        // Features
        (Plus, "FEATURE", "EN_DPL", With(), "hub", 1),
        (Plus, "FEATURE", "EN_DPL", With(air: Dumb), "hub", 0),
        (Plus, "FEATURE", "EN_ACK_PAY", With(links: Orders), "far", 1),
        (Plus, "FEATURE", "EN_ACK_PAY", With(links: Orders), "hub", 1),
        (Plus, "FEATURE", "EN_ACK_PAY", With(), "hub", 0),
        (Plus, "FEATURE", "EN_DYN_ACK", With(link: "acknowledge: false"), "far", 1),
        (Plus, "FEATURE", "EN_DYN_ACK", With(), "far", 0),
        // As stated, whatever the links need.
        (Plus, "FEATURE", "EN_DYN_ACK", With(air: "no-acknowledge: true"), "far", 1),
        (Plus, "FEATURE", "EN_DYN_ACK", With(air: "no-acknowledge: false", link: "acknowledge: false"), "far", 0),
        .. PipeProofs(),
    ];

    /// <summary>Registers that a manifest does not set, each with the reason.</summary>
    private static readonly (string Register, string Reason)[] OutOfReach =
    [
        ("OBSERVE_TX", "counters that the chip keeps"),
        ("RPD", "a detector's reading"),
        ("CD", "a detector's reading"),
        ("RSSI", "a detector's reading"),
        ("FIFO_STATUS", "the state of the FIFOs"),
        ("TEST_RESERVED", "must never be written"),
        ("(all)", "the row compares a part that is not among the profiles"),
    ];

    /// <summary>Single rows that a manifest does not reach though others of their register are.</summary>
    private static readonly (string Register, string Field, string Reason)[] RowsOutOfReach =
    [
        ("CONFIG", "", "powered down with a 1-byte CRC: written first and replaced by power up; proven by the first frame below"),
        ("STATUS", "", "the flags' state; only written to clear them, proven below"),
        ("STATUS", "RX_DR", "a flag"), ("STATUS", "TX_DS", "a flag"), ("STATUS", "MAX_RT", "a flag"),
        ("STATUS", "RX_P_NO", "read only"), ("STATUS", "TX_FULL", "read only"),
        ("RX_PW_P0", "", "0 closes the pipe, and the width of a closed pipe is not written"),
        ("RX_PW_P1", "", "as RX_PW_P0"), ("RX_PW_P2", "", "as RX_PW_P0"), ("RX_PW_P3", "", "as RX_PW_P0"),
        ("RX_PW_P4", "", "as RX_PW_P0"), ("RX_PW_P5", "", "as RX_PW_P0"),
    ];

    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Rows = FactTable.Read("radio-registers.csv");

    [Fact]
    public void Every_proof_holds()
    {
        foreach (var proof in Proofs)
        {
            var row = Rows.Single(row => row["part"] == proof.Part && row["register"] == proof.Register && row["field"] == proof.Field);
            var held = Held(ImageOf(proof.Text, proof.Node), Address(row)) ?? throw new InvalidOperationException($"{proof.Register} is not written");
            var (msb, lsb) = (Number(row, "msb"), Number(row, "lsb"));
            var field = (held >> lsb) & (ulong.MaxValue >> (63 - (msb - lsb)));
            Assert.True(proof.Value == field, $"{proof.Part} {proof.Register} {proof.Field}: expected {proof.Value:X}, planned {field:X} ({row["source"]})\n{proof.Text}");
            // A whole-register row states the value itself.
            if (proof.Field.Length == 0)
                Assert.Equal(Convert.ToUInt64(row["reset"], 16), field);
        }
    }

    [Fact]
    public void Every_row_is_proven_or_out_of_reach_for_a_reason()
    {
        var (proven, reserved, reasoned) = (0, 0, 0);
        foreach (var row in Rows)
        {
            var (register, field) = (row["register"], row["field"]);
            if (OutOfReach.Any(one => one.Register == register) || RowsOutOfReach.Any(one => one.Register == register && one.Field == field))
                reasoned++;
            else if (field == "Reserved")
                reserved++;
            else if (row["part"] == "nRF24L01" && register is "DYNPD" or "FEATURE" && row["meaning"].StartsWith("Inaccessible", StringComparison.Ordinal))
                proven++;
            else if (Proofs.Any(proof => proof.Part == row["part"] && proof.Register == register && proof.Field == field))
                proven++;
            else
                Assert.Fail($"{row["part"]} {register} {field} is neither proven nor excused");
        }
        Assert.Equal((70, 16, 34), (proven, reserved, reasoned));
        Assert.Equal(Rows.Count, proven + reserved + reasoned);
    }

    [Fact]
    public void Reserved_bits_are_written_as_zero_in_every_image()
    {
        foreach (var proof in Proofs)
        {
            var image = ImageOf(proof.Text, proof.Node);
            foreach (var row in Rows.Where(row => row["field"] == "Reserved" && row["part"] == proof.Part && row["register"] != "FIFO_STATUS" && row["register"] != "RPD"))
            {
                if (Held(image, Address(row)) is not { } held)
                    continue;
                var mask = (ulong.MaxValue >> (63 - (Number(row, "msb") - Number(row, "lsb")))) << Number(row, "lsb");
                Assert.True((held & mask) == 0, $"{row["register"]} holds {held:X2}");
            }
        }
    }

    // D2 Table 24 note c: DYNPD and FEATURE are dead until ACTIVATE; RF_SETUP[7:5] must be 000, so no 250 kbps.
    [Fact]
    public void The_earlier_part_is_unlocked_when_it_needs_features_and_never_gets_250_kbps()
    {
        const string earlier = "radio: { part: nRF24L01 }";
        Assert.True(ImageOf(With(far: earlier), "far").NeedsUnlock);
        Assert.False(ImageOf(With(air: Dumb, far: earlier), "far").NeedsUnlock);
        Assert.False(ImageOf(With(), "far").NeedsUnlock);
        Assert.Null(PlanOf(With(air: "rate: 250 kbps", far: earlier), "far").Image);
    }

    // Table 28 p57: CONFIG's reset is power down, transmitter, CRC of one byte, all interrupts on.
    [Fact]
    public void The_first_frame_powers_down_and_the_last_powers_up()
    {
        var frames = ImageOf(With(air: "crc: 1 byte"), "far").Frames;
        Assert.Equal([0x20, 0x08], frames[0].Bytes);
        Assert.Equal([0x20, 0x0A], frames[^1].Bytes);
    }

    // Table 28 p59: the flags are cleared by writing 1; Table 20 p51: both flushes.
    [Fact]
    public void Flags_are_cleared_and_both_queues_emptied_before_power_up()
    {
        var frames = ImageOf(With(), "far").Frames;
        Assert.Equal([[0x27, 0x70], [0xE1], [0xE2]], frames.TakeLast(4).Take(3).Select(frame => frame.Bytes.ToArray()));
    }

    private static IEnumerable<(string Part, string Register, string Field, string Text, string Node, ulong Value)> PipeProofs()
    {
        var six = With(air: "payload-length: exact", far: Six);
        var dynamic = With(far: Six);
        for (ulong pipe = 0; pipe < 6; pipe++)
        {
            var n = pipe.ToString(CultureInfo.InvariantCulture);
            // A receiver whose only pipe is another one: the bit is 0.
            var other = With(hub: pipe == 1 ? "pipes: { 0: 0xB3B4B5B6F1 }" : "pipes: { 1: 0xB3B4B5B6F1 }");
            yield return (Plus, "EN_AA", $"ENAA_P{n}", dynamic, "hub", 1);
            yield return (Plus, "EN_AA", $"ENAA_P{n}", other, "hub", 0);
            yield return (Plus, "EN_RXADDR", $"ERX_P{n}", dynamic, "hub", 1);
            yield return (Plus, "EN_RXADDR", $"ERX_P{n}", other, "hub", 0);
            yield return (Plus, "DYNPD", $"DPL_P{n}", dynamic, "hub", 1);
            yield return (Plus, "DYNPD", $"DPL_P{n}", six, "hub", 0);
            yield return (Plus, $"RX_PW_P{n}", $"RX_PW_P{n}", six, "hub", 1);
        }
    }

    // The image holds bytes as SPI takes them: low byte first.
    private static ulong? Held(RegisterImage image, byte register) =>
        image[register] is { } bytes ? bytes.Reverse().Aggregate(0UL, (value, one) => (value << 8) | one) : null;

    private static byte Address(IReadOnlyDictionary<string, string> row) => Convert.ToByte(row["address"], 16);

    private static int Number(IReadOnlyDictionary<string, string> row, string column) => int.Parse(row[column], CultureInfo.InvariantCulture);
}
