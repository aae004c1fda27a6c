using System.Globalization;

namespace Proof;

/// <summary>
/// What a node's radio must be told, straight from the register tables: every frame on SPI in write order, and what the registers then hold. Power down comes first
/// and power up last, between them whatever has an effect as planned; a register without one is not written.
/// </summary>
public sealed class Expected
{
    private readonly List<byte[]> frames = [];

    private Expected(PlainNodePlan plan)
    {
        Plan = plan;
        Table = RegisterTable.Of(Node.Part);
        Build();
    }

    internal PlainNodePlan Plan { get; }

    public PlainNode Node => Plan.Node;

    public RegisterTable Table { get; }

    /// <summary>The register image, whole SPI frames in order.</summary>
    public IReadOnlyList<byte[]> Frames => frames;

    /// <summary>What the image leaves in every register that it writes, by address; STATUS, whose flags it clears, is not among them.</summary>
    public IReadOnlyDictionary<byte, byte[]> Registers => frames.Where(frame => frame.Length > 1 && frame[0] != Words.Write(RegisterTable.Address("STATUS")))
        .GroupBy(frame => (byte)(frame[0] & ~Words.Write(0))).ToDictionary(group => group.Key, group => group.Last()[1..]);

    /// <summary>What differs from role to role: towards each destination, and listening. By function, such as `aim_shed` and `listen`.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<byte[]>> Roles { get; private set; } = new Dictionary<string, IReadOnlyList<byte[]>>();

    /// <summary>FEATURE where the part hides it until ACTIVATE (nRF24L01 Product Specification 2.0, Table 16 p46); null where nothing is hidden or needed.</summary>
    public byte? Hidden { get; private set; }

    public bool Listens => Plan.Listens;

    internal static Expected Of(PlainNodePlan plan) => new(plan);

    /// <summary>Constants of the header by the name behind the node's: a number, or bytes of hex.</summary>
    /// <param name="spiKilohertz">The SPI clock, which times of sending depend on.</param>
    public SortedDictionary<string, string> Constants(int spiKilohertz) => HeaderConstants.Of(this, spiKilohertz);

    /// <summary>CONFIG: which interrupts are masked, the check sum, power and role.</summary>
    public byte Config(bool isUp, bool receives)
    {
        // EN_CRC is 1 whatever is written as long as an EN_AA bit is (Table 28 p57), so it is written as it reads.
        var crc = Node.Crc == 0 && AutoAck() != 0 ? 1 : Node.Crc;
        int Masked(string source) => Node.IrqFor is { } wanted && !wanted.Contains(source) ? 1 : 0;
        return Table.Byte(
            "CONFIG", ("MASK_RX_DR", Masked("received")), ("MASK_TX_DS", Masked("sent")), ("MASK_MAX_RT", Masked("gave up")), ("EN_CRC", crc > 0 ? 1 : 0),
            ("CRCO", Node.Crc > 0 ? Table.Code("CONFIG", "CRCO", Node.Crc == 1 ? "1 byte" : "2 bytes") : 0), ("PWR_UP", isUp ? 1 : 0), ("PRIM_RX", receives ? 1 : 0));
    }

    /// <summary>EN_AA: pipes that acknowledge; pipe 0 of a sender, and of a receiver whose acknowledgements carry a payload (Table 28 note d p63).</summary>
    public byte AutoAck() => Pipes("EN_AA", "ENAA_P", pipe => pipe.Acknowledges, Plan.Sends.Exists(hop => hop.HasControl) || Plan.Returns.Count > 0);

    /// <summary>DYNPD: likewise.</summary>
    public byte Dynamic() =>
        Pipes("DYNPD", "DPL_P", pipe => pipe.FixedLength is null, (Plan.Sends.Exists(hop => hop.HasControl) && Node.Length == "dynamic") || Plan.Returns.Count > 0);

    // A node that also listens holds somebody else's address in pipe 0, and would acknowledge in that name: closed meanwhile.
    private byte Receiving() => Pipes("EN_RXADDR", "ERX_P", _ => true, Plan.WantsAnswers && !Plan.Listens && !Plan.ClosesPipe0);

    private byte Pipes(string register, string field, Func<PlainOpenPipe, bool> isSet, bool pipe0) => Table.Byte(
        register,
        [.. Enumerable.Range(0, 6).Where(number => Plan.Pipes.Exists(pipe => pipe.Number == number && isSet(pipe)) || (number == 0 && pipe0)).Select(number => ($"{field}{number.ToString(CultureInfo.InvariantCulture)}", 1))]);

    private void Build()
    {
        Write("CONFIG", Config(isUp: false, Plan.Listens));
        Write("EN_AA", AutoAck());
        Write("EN_RXADDR", Receiving());
        Write("SETUP_AW", Table.Byte("SETUP_AW", ("AW", Table.Code("SETUP_AW", "AW", $"{Node.Width.ToString(CultureInfo.InvariantCulture)} bytes"))));
        // ARD = (code + 1) x 250 us; without acknowledgements nothing is repeated, and plain packets need ARC 0 (7.9 p49).
        Write("SETUP_RETR", Plan.WantsAnswers ? Table.Byte("SETUP_RETR", ("ARD", (Plan.Delay!.Value / 250) - 1), ("ARC", Node.Limit)) : (byte)0);
        Write("RF_CH", Table.Byte("RF_CH", ("RF_CH", Node.Channel)));
        Write("RF_SETUP", Setup());
        Addresses();
        Write("DYNPD", Dynamic());
        var feature = Table.Byte(
            "FEATURE", ("EN_DPL", Dynamic() != 0 ? 1 : 0), ("EN_ACK_PAY", Plan.Returns.Count > 0 || Plan.Sends.Exists(hop => hop.Riders.Count > 0) ? 1 : 0),
            ("EN_DYN_ACK", Node.NoAcknowledge ?? Plan.Sends.Exists(hop => hop.SaysNo) ? 1 : 0));
        Write("FEATURE", feature);
        Hidden = Node.Part == "nRF24L01" && feature != 0 ? feature : null;
        Write("STATUS", Table.Byte("STATUS", ("RX_DR", 1), ("TX_DS", 1), ("MAX_RT", 1)));
        frames.Add([Words.Word("FLUSH_TX")]);
        frames.Add([Words.Word("FLUSH_RX")]);
        Write("CONFIG", Config(isUp: true, Plan.Listens));
        Roles = RoleFrames.Of(this);
    }

    // The earlier part has a single rate bit, and the receiver's gain bit, which is left at its better setting.
    private byte Setup()
    {
        var (rate, power) = (Node.Rate, ("RF_PWR", Table.Code("RF_SETUP", "RF_PWR", Node.Power)));
        var locks = ("PLL_LOCK", Node.Test is "none" ? 0 : 1);
        if (Table.Has("RF_SETUP", "RF_DR"))
            return Table.Byte("RF_SETUP", ("RF_DR", Table.Code("RF_SETUP", "RF_DR", rate)), power, locks, ("LNA_HCURR", 1));
        var code = Table.Code("RF_SETUP", "RF_DR_LOW", rate);
        return Table.Byte("RF_SETUP", ("RF_DR_LOW", code >> 1), ("RF_DR_HIGH", code & 1), power, locks, ("CONT_WAVE", Node.Test == "carrier" ? 1 : 0));
    }

    private void Addresses()
    {
        if (Plan.Sends is [var first, ..])
        {
            Write("TX_ADDR", Bytes(first.Address!));
            if (Plan.WantsAnswers && Plan.OwnPipe0 is null)
                Write("RX_ADDR_P0", Bytes(first.Address!));
        }
        var hasPipe1 = Plan.Pipes.Exists(pipe => pipe.Number == 1);
        foreach (var pipe in Plan.Pipes)
        {
            if (pipe.Number > 1 && !hasPipe1)
            {
                // The upper bytes of 2 to 5 are those of RX_ADDR_P1, open or not (7.6 p40).
                Write("RX_ADDR_P1", Bytes(pipe.Address));
                hasPipe1 = true;
            }
            Write($"RX_ADDR_P{pipe.Number.ToString(CultureInfo.InvariantCulture)}", pipe.Number > 1 ? Bytes(pipe.Address)[..1] : Bytes(pipe.Address));
        }
        foreach (var pipe in Plan.Pipes.Where(pipe => pipe.FixedLength is not null))
        {
            var register = $"RX_PW_P{pipe.Number.ToString(CultureInfo.InvariantCulture)}";
            Write(register, Table.Byte(register, (register, pipe.FixedLength!.Value)));
        }
    }

    /// <summary>Least significant byte first (8.3.1 p50); the first byte on the air is the most significant (7.3.2 p28).</summary>
    internal static byte[] Bytes(string address) => [.. Convert.FromHexString(address).Reverse()];

    internal static byte[] Frame(string register, params byte[] data) => [Words.Write(RegisterTable.Address(register)), .. data];

    private void Write(string register, params byte[] data) => frames.Add(Frame(register, data));
}
