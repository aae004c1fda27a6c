using System.Globalization;
using RadioLint.Hardware;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>Registers against facts/radio-registers.csv: nRF24L01+ Product Specification v1.0, Table 28, with the page in each row.</summary>
public sealed class RadioRegisterFacts
{
    private static readonly IReadOnlyList<PublishedRow> Rows = [.. Published.Rows("radio-registers.csv").Where(row => row["part"] == "nRF24L01+")];

    [Fact]
    public void Every_register_holds_its_reset_value()
    {
        var published = Rows.Where(row => row["field"].Length == 0 && row["reset"].StartsWith("0x", StringComparison.Ordinal))
            .Select(row => $"{row["address"]} {row["register"]} {row["reset"]}").ToList();
        Assert.Equal(26, published.Count);
        var ours = RadioParts.Find("nRF24L01+")!.RegistersReset.Select(register => string.Create(
            CultureInfo.InvariantCulture,
            $"0x{register.Address:X2} {register.Name} 0x{register.Reset.Bits.ToString(register.Reset.Width == 5 ? "X10" : "X2", CultureInfo.InvariantCulture)}"));
        Assert.Equal(published, ours);
    }

    [Fact]
    public void Reserved_bits_of_writable_registers_are_written_0()
    {
        var published = Rows.Where(row => row["field"] == "Reserved" && row["access"] == "R/W").ToList();
        Assert.Equal(16, published.Select(row => row["register"]).Distinct(StringComparer.Ordinal).Count());
        var part = RadioParts.Find("nRF24L01+")!;
        foreach (var register in part.RegistersReset)
        {
            var mask = published.Where(row => row["register"] == register.Name)
                .SelectMany(row => Enumerable.Range((int)row.Number("lsb"), (int)(row.Number("msb") - row.Number("lsb")) + 1))
                .Aggregate(0, (bits, bit) => bits | (1 << bit));
            Assert.Equal(mask, part.ZeroBitsOf(register.Name));
        }
    }

    // nRF24L01+ Product Specification v1.0, Table 28 p59 (RF_SETUP bit 0 is without effect) and 8.3.1 p51 (least byte first).
    [Fact]
    public void Values_go_over_the_wire_least_byte_first()
    {
        Assert.Equal([0xF1, 0xB6, 0xB5, 0xB4, 0xB3], new RegisterValue(0xB3B4B5B6F1, 5).LeastFirst());
        Assert.Equal(5, RadioParts.Find("nRF24L01+")!.RegistersReset.Single(register => register.Name == "TX_ADDR").Reset.Width);
        Assert.Equal([0x0E], RadioParts.Find("nRF24L01+")!.RegistersReset.Single(register => register.Name == "RF_SETUP").Reset.LeastFirst());
        Assert.Equal(1, RadioParts.Find("nRF24L01+")!.FreeBitsOf("RF_SETUP") & 1);
        Assert.Equal(0, RadioParts.Find("nRF24L01+")!.FreeBitsOf("CONFIG"));
    }

    // nRF24L01 Product Specification v2.0, Table 24 note c p58: FEATURE and DYNPD are dead until ACTIVATE; Si24R1 datasheet, Table 6-1: no such command.
    [Theory]
    [InlineData("nRF24L01+", false)]
    [InlineData("nRF24L01", true)]
    [InlineData("Si24R1", false)]
    public void Only_the_earlier_part_needs_unlocking(string name, bool needs) => Assert.Equal(needs, RadioParts.Find(name)!.NeedsUnlock);

    [Fact]
    public void Only_the_look_alike_is_in_doubt()
    {
        Assert.Equal("nRF24L01+", RadioParts.Find("Si24R1")!.LookAlikeOf);
        Assert.True(RadioParts.Find("Si24R1")!.NoAckDoubt!.Value);
        Assert.Equal("value from memory", RadioParts.Find("Si24R1")!.NoAckDoubt!.Citation);
        Assert.Null(RadioParts.Find("nRF24L01+")!.NoAckDoubt);
        Assert.Null(RadioParts.Find("nRF24L01+")!.LookAlikeOf);
    }
}
