using System.Globalization;
using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Registers;

/// <summary>Every row of facts/radio-registers.csv for the three parts, through SPI (nRF24L01+ Product Specification 1.0, Table 28 p57-63).</summary>
public class RegisterTableTests
{
    public static TheoryData<string, string> Resets() => Of(row => row["field"].Length == 0 && row["reset"].StartsWith("0x", StringComparison.Ordinal));

    public static TheoryData<string, string, string> ReservedFields() => Fields(row => row["field"] == "Reserved" && row["access"] == "R/W");

    public static TheoryData<string, string, string> WritableFields() => Fields(row =>
        row["field"] is not ("Reserved" or "" or "TX_FULL") && row["access"] == "R/W" && row["register"] is not "STATUS" && !IsWide(row));

    [Fact]
    public void The_table_has_the_rows_that_are_meant()
    {
        Assert.Equal(30, Resets().Count);
        Assert.Equal(18, ReservedFields().Count);
        Assert.Equal(50, WritableFields().Count);
    }

    /// <summary>A fresh chip answers R_REGISTER with the printed reset value; of what is longer than a byte, all five.</summary>
    [Theory]
    [MemberData(nameof(Resets))]
    public void Reset_value(string part, string register)
    {
        var chip = new Pair(ChipVariants.Find(part)).Sender;
        var row = Row(part, register, "");
        var expected = Convert.ToUInt64(row["reset"], 16);
        // Bit 0 of RF_SETUP has no stated reset value (Table 28 p59).
        var mask = part == "nRF24L01+" && register == "RF_SETUP" ? ~1UL : ~0UL;

        Assert.Equal(expected & mask, Read(chip, row) & mask);
    }

    /// <summary>"Only 0 allowed": writing 1 is a violation; undefined bits read 0 (9.1 p57).</summary>
    [Theory]
    [MemberData(nameof(ReservedFields))]
    public void Reserved_bits(string part, string register, string bits)
    {
        var chip = new Pair(ChipVariants.Find(part)).Sender;
        var address = Address(Row(part, register, "Reserved"));
        var ends = bits.Split(':').Select(each => int.Parse(each, CultureInfo.InvariantCulture)).ToArray();
        for (var bit = ends[1]; bit <= ends[0]; bit++)
        {
            var before = chip.Violations.Count;
            chip.Transfer((byte)(Command.WRegister | address), (byte)(1 << bit));

            Assert.Equal(register == "FIFO_STATUS" ? ViolationKind.ReadOnlyRegister : ViolationKind.ReservedBit, chip.Violations[before].Kind);
            Assert.Equal(0, chip.Read(address) & (1 << bit));
        }
    }

    /// <summary>A writable field takes each of its bits, and gives it back, without a word.</summary>
    [Theory]
    [MemberData(nameof(WritableFields))]
    public void Writable_bits(string part, string register, string bits)
    {
        var chip = new Pair(ChipVariants.Find(part)).Sender;
        Link.Write(chip, Register.EnAa, 0);
        Link.Write(chip, Register.RfSetup, 0);
        if (chip.Variant.NeedsUnlock)
            chip.Transfer(Command.Activate, Command.ActivateKey);
        var row = FactTable.Read("radio-registers.csv").First(each => each["part"] == part && each["register"] == register);
        var ends = bits.Split(':').Select(each => int.Parse(each, CultureInfo.InvariantCulture)).ToArray();
        for (var bit = ends[1]; bit <= ends[0]; bit++)
        {
            var value = (byte)(1 << bit);
            chip.Transfer((byte)(Command.WRegister | Address(row)), value);

            Assert.Equal(value, chip.Read(Address(row)));
        }
        Assert.Empty(chip.Violations);
    }

    /// <summary>Table 28 p59-61: what only shows live values is not written.</summary>
    [Theory]
    [InlineData(Register.ObserveTx)]
    [InlineData(Register.Rpd)]
    [InlineData(Register.FifoStatus)]
    public void Read_only_registers(byte register)
    {
        var chip = new Pair().Sender;
        var before = chip.Read(register);
        Link.Write(chip, register, 0x03);

        Assert.Equal(ViolationKind.ReadOnlyRegister, Assert.Single(chip.Violations).Kind);
        Assert.Equal(before, chip.Read(register));
    }

    /// <summary>9.1 p57: registers 0x18 to 0x1B are for tests; 0x1E and 0x1F are not in Table 28.</summary>
    [Theory]
    [InlineData(0x18, ViolationKind.TestRegister)]
    [InlineData(0x19, ViolationKind.TestRegister)]
    [InlineData(0x1A, ViolationKind.TestRegister)]
    [InlineData(0x1B, ViolationKind.TestRegister)]
    [InlineData(0x1E, ViolationKind.UnmappedRegister)]
    [InlineData(0x1F, ViolationKind.UnmappedRegister)]
    public void Registers_to_leave_alone(byte register, ViolationKind kind)
    {
        var chip = new Pair().Sender;
        Link.Write(chip, register, 0x01);

        Assert.Equal(kind, Assert.Single(chip.Violations).Kind);
    }

    /// <summary>Table 28 p58-60, 6.3 p25: codes that are illegal, reserved or without a stated meaning.</summary>
    [Theory]
    [InlineData(Register.SetupAw, 0x00, 0x01)]
    [InlineData(Register.RfCh, 126, 125)]
    [InlineData(Register.RfCh, 127, 0)]
    [InlineData(Register.RfSetup, 0x28, 0x20)]
    [InlineData(Register.RxPwP0, 33, 32)]
    [InlineData(Register.RxPwP5, 63, 0)]
    public void Illegal_codes(byte register, byte illegal, byte legal)
    {
        var chip = new Pair().Sender;
        Link.Write(chip, register, legal);
        Assert.Empty(chip.Violations);

        Link.Write(chip, register, illegal);
        Assert.Equal(ViolationKind.IllegalCode, Assert.Single(chip.Violations).Kind);
    }

    private static ulong Read(Chip chip, IReadOnlyDictionary<string, string> row)
    {
        var miso = new byte[IsWide(row) ? 6 : 2];
        chip.Transfer([Address(row), .. new byte[miso.Length - 1]], miso);
        return miso.Skip(1).Reverse().Aggregate(0UL, (value, each) => (value << 8) | each);
    }

    private static bool IsWide(IReadOnlyDictionary<string, string> row) => row["msb"] == "39";

    private static byte Address(IReadOnlyDictionary<string, string> row) => Convert.ToByte(row["address"], 16);

    private static IReadOnlyDictionary<string, string> Row(string part, string register, string field) =>
        FactTable.Read("radio-registers.csv").First(row => row["part"] == part && row["register"] == register && row["field"] == field);

    private static TheoryData<string, string> Of(Func<IReadOnlyDictionary<string, string>, bool> fits)
    {
        var data = new TheoryData<string, string>();
        foreach (var row in FactTable.Read("radio-registers.csv").Where(row => ChipVariants.Find(row["part"]) is not null && fits(row)))
            data.Add(row["part"], row["register"]);
        return data;
    }

    private static TheoryData<string, string, string> Fields(Func<IReadOnlyDictionary<string, string>, bool> fits)
    {
        var data = new TheoryData<string, string, string>();
        foreach (var row in FactTable.Read("radio-registers.csv").Where(row => ChipVariants.Find(row["part"]) is not null && fits(row)))
            data.Add(row["part"], row["register"], $"{row["msb"]}:{row["lsb"]}");
        return data;
    }
}
