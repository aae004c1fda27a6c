using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Registers;

/// <summary>SPI, byte by byte. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class SpiTests
{
    private readonly Chip chip = new Pair().Sender;

    /// <summary>Table 20 p51: the words of facts/radio-commands.csv are those of the model.</summary>
    [Theory]
    [InlineData("R_REGISTER", Command.RRegister)]
    [InlineData("W_REGISTER", Command.WRegister)]
    [InlineData("R_RX_PAYLOAD", Command.RRxPayload)]
    [InlineData("W_TX_PAYLOAD", Command.WTxPayload)]
    [InlineData("FLUSH_TX", Command.FlushTx)]
    [InlineData("FLUSH_RX", Command.FlushRx)]
    [InlineData("REUSE_TX_PL", Command.ReuseTxPl)]
    [InlineData("R_RX_PL_WID", Command.RRxPlWid)]
    [InlineData("W_ACK_PAYLOAD", Command.WAckPayload)]
    [InlineData("W_TX_PAYLOAD_NOACK", Command.WTxPayloadNoAck)]
    [InlineData("NOP", Command.Nop)]
    public void Command_words(string name, byte word)
    {
        var row = FactTable.Read("radio-commands.csv").First(each => each["command"] == name && each["part"] == "nRF24L01+");

        Assert.Equal(Convert.ToByte(row["word_hex"].Split(' ')[0], 16), word);
    }

    /// <summary>8.3.1 p50: STATUS comes out with every command byte, whatever the command.</summary>
    [Fact]
    public void Status_comes_with_the_first_byte()
    {
        for (var word = 0; word < 256; word++)
            Assert.Equal(0x0E, new Pair().Sender.Transfer((byte)word));
    }

    /// <summary>8.3.1 p50: a write takes effect at the end of its frame.</summary>
    [Fact]
    public void A_write_takes_effect_when_csn_rises()
    {
        chip.Csn(false, 0);
        chip.Spi(Command.WRegister | Register.RfCh, 16);
        chip.Spi(40, 32);
        Assert.Equal(2, chip.Read(Register.RfCh));

        chip.Csn(true, 48);
        Assert.Equal(40, chip.Read(Register.RfCh));
    }

    /// <summary>8.3.1 p50: each command starts with CSN going low; bytes without it are nobody's.</summary>
    [Fact]
    public void Without_csn_nothing_is_heard()
    {
        Assert.Equal(0, chip.Spi(Command.WRegister | Register.RfCh, 16));
        Assert.Equal(0, chip.Spi(40, 32));
        chip.Csn(true, 48);

        Assert.Equal(2, chip.Read(Register.RfCh));
    }

    /// <summary>8.3.1 p50, Table 20 p51: least significant byte first, both ways.</summary>
    [Fact]
    public void Addresses_go_least_byte_first()
    {
        chip.Transfer(Command.WRegister | Register.TxAddr, 0x05, 0xB6, 0xB5, 0xB4, 0xB3);
        var miso = new byte[6];
        chip.Transfer([Register.TxAddr, 0, 0, 0, 0, 0], miso);

        Assert.Equal(0xB3B4B5B605UL, chip.ReadWide(Register.TxAddr));
        Assert.Equal([0x05, 0xB6, 0xB5, 0xB4, 0xB3], miso[1..]);
    }

    /// <summary>Table 20 p51: a multi-byte write may stop early; the upper bytes keep their value.</summary>
    [Fact]
    public void A_short_write_leaves_the_upper_bytes()
    {
        chip.Transfer(Command.WRegister | Register.TxAddr, 0x01, 0x02, 0x03);

        Assert.Equal(0xE7E7030201UL, chip.ReadWide(Register.TxAddr));
        Assert.Empty(chip.Violations);
    }

    /// <summary>Table 28 p58: with a width of 3 bytes three are read back; the stored ones stay.</summary>
    [Fact]
    public void Addresses_read_back_as_wide_as_the_setting()
    {
        Link.Write(chip, Register.SetupAw, 0x01);
        var miso = new byte[6];
        chip.Transfer([Register.RxAddrP1, 0, 0, 0, 0, 0], miso);

        Assert.Equal([0xC2, 0xC2, 0xC2, 0, 0], miso[1..]);
    }

    /// <summary>Table 20 p51: a register has one byte or up to five, and none is no value.</summary>
    [Theory]
    [InlineData(Register.RfCh, 2)]
    [InlineData(Register.TxAddr, 6)]
    [InlineData(Register.RxAddrP5, 5)]
    [InlineData(Register.RfCh, 0)]
    public void Lengths_of_registers(byte register, int bytes)
    {
        chip.Transfer([(byte)(Command.WRegister | register), .. Enumerable.Repeat((byte)0x11, bytes)]);

        Assert.Equal(new Violation(ViolationKind.RegisterLength, 0, register, bytes), Assert.Single(chip.Violations));
    }

    /// <summary>Table 20 p51: words without a meaning change nothing.</summary>
    [Fact]
    public void Unknown_commands()
    {
        var known = new HashSet<int> { 0x60, 0x61, 0xA0, 0xB0, 0xE1, 0xE2, 0xE3, 0xFF };
        for (var word = 0x40; word < 0x100; word++)
        {
            if (known.Contains(word) || word is >= 0xA8 and <= 0xAF)
                continue;
            var fresh = new Pair().Sender;
            fresh.Transfer((byte)word, 0x73);

            Assert.Equal(new Violation(ViolationKind.UnknownCommand, 0, (byte)word, 1), Assert.Single(fresh.Violations));
        }
    }

    /// <summary>Tables 22 to 27 p53-55: 10 MHz at the lightest load.</summary>
    [Fact]
    public void Clock_limit()
    {
        chip.SpiClock(10_000_000);
        Assert.Empty(chip.Violations);

        chip.SpiClock(10_000_001);
        Assert.Equal(ViolationKind.SpiClock, Assert.Single(chip.Violations).Kind);
    }

    /// <summary>Table 16 p24: CSN may fall 4 us after CE rose, not before.</summary>
    [Theory]
    [InlineData(63, 1)]
    [InlineData(64, 0)]
    public void Csn_after_ce(long ticks, int violations)
    {
        chip.Ce(true, 1000);
        chip.Csn(false, 1000 + ticks);

        Assert.Equal(violations, chip.Violations.Count(each => each.Kind == ViolationKind.CsnAfterCe));
    }

    /// <summary>Figure 14 p41, W31 and W32 of facts/radio-checks.csv: pipe 5 stores one byte and takes the rest from pipe 1.</summary>
    [Fact]
    public void Pipes_share_their_upper_bytes()
    {
        chip.Transfer(0x2B, 0xF1, 0xB6, 0xB5, 0xB4, 0xB3);
        chip.Transfer(0x2F, 0x05);

        Assert.Equal(0xB3B4B5B6F1UL, chip.Settings.Address(1));
        Assert.Equal(0xB3B4B5B605UL, chip.Settings.Address(5));
    }
}
