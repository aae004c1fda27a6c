using System.Globalization;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>How long a payload a CRC of one byte guards.</summary>
public sealed class CheckSumTests
{
    // CRC-03 of worked-examples.csv, its source beside each row: the longest payload with Hamming distance 4, by the width of the address.
    [Fact]
    public void Payloads_with_hamming_distance_4_are_as_long_as_published()
    {
        var rows = FactTable.Read("worked-examples.csv").Where(row => row["id"].StartsWith("CRC-03-", StringComparison.Ordinal)).ToList();
        Assert.Equal(3, rows.Count);
        foreach (var row in rows)
        {
            var width = int.Parse(row["id"]["CRC-03-".Length..], CultureInfo.InvariantCulture);
            Assert.Equal(int.Parse(row["result"], CultureInfo.InvariantCulture), CheckSum.LongestGuarded(width));
        }
    }

    // The same bits without the control field (nRF24L01+ Product Specification 1.0, 7.9.1): (119 - 40) / 8.
    [Fact]
    public void Without_a_control_field_there_is_more_room() => Assert.Equal(9, CheckSum.LongestGuarded(5, hasControlField: false));
}
