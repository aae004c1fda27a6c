using System.Collections.Immutable;
using RadioLint.Radio;

namespace RadioLint.Readback;

/// <summary>Some bits of a register, and what their value says.</summary>
/// <param name="Name">As the data sheet has it.</param>
/// <param name="High">The highest bit.</param>
/// <param name="Low">The lowest bit.</param>
/// <param name="Says">The value in words.</param>
public sealed record RegisterField(string Name, int High, int Low, Func<int, string> Says)
{
    /// <summary>The field's bits of the register.</summary>
    public int Mask => ((1 << (High - Low + 1)) - 1) << Low;

    /// <summary>The field's value in a register's.</summary>
    public int In(int register) => (register & Mask) >> Low;
}

/// <summary>A register of the radio.</summary>
/// <param name="Bytes">1, or 5 of which the address width decides how many are used.</param>
public sealed record MappedRegister(byte Address, string Name, int Bytes, ImmutableArray<RegisterField> Fields);

/// <summary>
/// The register map, fields by their names (nRF24L01+ Product Specification 1.0, Table 28 p57-63). RF_SETUP differs from part to part:
/// its fields come from the part's profile.
/// </summary>
public static class RegisterMap
{
    /// <summary>Past the last register.</summary>
    public const byte End = 0x1E;

    private const int Pipes = 6;

    private static readonly ImmutableArray<MappedRegister> All = ImmutableArray.CreateRange(Make().OrderBy(one => one.Address));

    /// <summary>In the order of addresses; 0x18 to 0x1B, which are for tests, are not among them.</summary>
    public static ImmutableArray<MappedRegister> Registers => All;

    /// <summary>The register at an address, or null.</summary>
    public static MappedRegister? At(byte address) => All.FirstOrDefault(one => one.Address == address);

    /// <summary>The register of a name, in any case; null when there is none.</summary>
    public static MappedRegister? Find(string name) => All.FirstOrDefault(one => string.Equals(one.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>A register's name; its address where it has none.</summary>
    public static string NameOf(byte address) => At(address)?.Name ?? Hex.Byte(address);

    /// <summary>True for TX_ADDR and the two full receive addresses.</summary>
    public static bool IsWide(byte address) => address is Radio.Registers.RxAddrP0 or Radio.Registers.RxAddrP1 or Radio.Registers.TxAddr;

    private static IEnumerable<MappedRegister> Make()
    {
        yield return One(
            Radio.Registers.Config, "CONFIG",
            Bit("MASK_RX_DR", 6, "reaches IRQ", "kept off IRQ"), Bit("MASK_TX_DS", 5, "reaches IRQ", "kept off IRQ"), Bit("MASK_MAX_RT", 4, "reaches IRQ", "kept off IRQ"),
            Bit("EN_CRC", 3, "no CRC", "CRC on"), Bit("CRCO", 2, "1 byte", "2 bytes"), Bit("PWR_UP", 1, "power down", "power up"), Bit("PRIM_RX", 0, "transmitter", "receiver"));
        yield return OfPipes(Radio.Registers.EnAa, "EN_AA", "ENAA_P", "not acknowledged", "acknowledged");
        yield return OfPipes(Radio.Registers.EnRxAddr, "EN_RXADDR", "ERX_P", "closed", "open");
        yield return One(Radio.Registers.SetupAw, "SETUP_AW", new RegisterField("AW", 1, 0, value => value == 0 ? "illegal" : FormattableString.Invariant($"{value + 2} bytes")));
        yield return One(
            Radio.Registers.SetupRetr, "SETUP_RETR",
            new RegisterField("ARD", 7, 4, value => FormattableString.Invariant($"{(value + 1) * 250} us")),
            new RegisterField("ARC", 3, 0, value => value == 0 ? "no repetition" : FormattableString.Invariant($"{value} repetition{(value == 1 ? "" : "s")}")));
        yield return One(Radio.Registers.RfCh, "RF_CH", new RegisterField("RF_CH", 6, 0, value => FormattableString.Invariant($"{2400 + value} MHz")));
        yield return One(Radio.Registers.RfSetup, "RF_SETUP");
        yield return One(
            Radio.Registers.Status, "STATUS",
            Bit("RX_DR", 6, "no new packet", "a packet has come"), Bit("TX_DS", 5, "nothing sent", "a packet was sent"), Bit("MAX_RT", 4, "not given up", "given up"),
            new RegisterField("RX_P_NO", 3, 1, value => value == 7 ? "receive FIFO empty" : FormattableString.Invariant($"next packet from pipe {value}")),
            Bit("TX_FULL", 0, "room to send", "transmit FIFO full"));
        yield return One(
            0x08, "OBSERVE_TX",
            new RegisterField("PLOS_CNT", 7, 4, value => FormattableString.Invariant($"{value}{(value == 15 ? " or more" : "")} lost since RF_CH was written")),
            new RegisterField("ARC_CNT", 3, 0, value => FormattableString.Invariant($"{value} repetition{(value == 1 ? "" : "s")} of the last packet")));
        yield return One(0x09, "RPD", Bit("RPD", 0, "no strong signal on the channel", "a strong signal on the channel"));
        for (var pipe = 0; pipe < Pipes; pipe++)
        {
            yield return new((byte)(Radio.Registers.RxAddrP0 + pipe), FormattableString.Invariant($"RX_ADDR_P{pipe}"), pipe < 2 ? Model.Address.Widest : 1, ImmutableArray<RegisterField>.Empty);
            yield return One(
                (byte)(Radio.Registers.RxPwP0 + pipe), FormattableString.Invariant($"RX_PW_P{pipe}"),
                new RegisterField(FormattableString.Invariant($"RX_PW_P{pipe}"), 5, 0, value => FormattableString.Invariant($"{value} bytes")));
        }
        yield return new(Radio.Registers.TxAddr, "TX_ADDR", Model.Address.Widest, ImmutableArray<RegisterField>.Empty);
        yield return One(
            0x17, "FIFO_STATUS",
            Bit("TX_REUSE", 6, "nothing to repeat", "the last packet is kept to be sent again"), Bit("TX_FULL", 5, "room to send", "transmit FIFO full"),
            Bit("TX_EMPTY", 4, "payloads wait to be sent", "transmit FIFO empty"), Bit("RX_FULL", 1, "room to receive", "receive FIFO full"),
            Bit("RX_EMPTY", 0, "payloads wait to be fetched", "receive FIFO empty"));
        yield return OfPipes(Radio.Registers.Dynpd, "DYNPD", "DPL_P", "fixed length", "dynamic length");
        yield return One(
            Radio.Registers.Feature, "FEATURE",
            Bit("EN_DPL", 2, "no dynamic length", "dynamic length"), Bit("EN_ACK_PAY", 1, "no payload in acknowledgements", "payload in acknowledgements"),
            Bit("EN_DYN_ACK", 0, "every packet asks for its acknowledgement", "packets may say that they want none"));
    }

    private static MappedRegister One(byte address, string name, params RegisterField[] fields) => new(address, name, 1, ImmutableArray.Create(fields));

    private static MappedRegister OfPipes(byte address, string name, string field, string off, string on) => One(
        address, name, [.. Enumerable.Range(0, Pipes).Select(pipe => Bit(FormattableString.Invariant($"{field}{Pipes - 1 - pipe}"), Pipes - 1 - pipe, off, on))]);

    private static RegisterField Bit(string name, int bit, string off, string on) => new(name, bit, bit, value => value == 0 ? off : on);
}
