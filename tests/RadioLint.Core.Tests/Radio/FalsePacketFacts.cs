using System.Globalization;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>Noise taken for packets, and delays that keep packets apart: the rows ADDR and MAC-10 of worked-examples.csv, derived there, with their steps.</summary>
public sealed class FalsePacketFacts
{
    [Fact]
    public void Every_row_agrees()
    {
        var rows = Published.Rows("worked-examples.csv").Where(row => row["id"].StartsWith("ADDR-", StringComparison.Ordinal) || row["id"] == "MAC-10").ToList();
        Assert.All(rows, row => Assert.True(Agrees(row), $"{row["id"]} {row["quantity"]}: expected {row["result"]} {row["unit"]} ({row["source"]})"));
        Assert.Equal(16, rows.Count);
    }

    private static bool Agrees(PublishedRow row) => row["id"] switch
    {
        "MAC-10" => row.Number("result") == Enumerable.Range(1, 16).Select(step => OnAir.RetryStep * step)
            .Where(delay => RetryClasses.AreApart(new(0), delay, Duration.FromMicroseconds((long)Published.Numbers(row.Input("packet_us")).Single()))).Min(delay => delay.Microseconds),
        "ADDR-01-3" or "ADDR-01-4" or "ADDR-01-5" => Near(row, 1_000 / Mean(DataRate.Mbps1, row)),
        "ADDR-03" => Near(row, PerHour(Mean(DataRate.Mbps2, row))),
        "ADDR-04" => Near(row, 1 / PerHour(Mean(DataRate.Mbps1, row)) / 8_766),
        "ADDR-05" => Near(row, PerHour(Mean(DataRate.Mbps1, row))),
        var id when id.StartsWith("ADDR-02-", StringComparison.Ordinal) => AgreesWithAndWithoutCrc(row, id[8..^2]),
        _ => false,
    };

    // The steps of these rows go on to what is left after a CRC of one and of two bytes.
    private static bool AgreesWithAndWithoutCrc(PublishedRow row, string rate)
    {
        var at = rate switch { "250k" => DataRate.Kbps250, "1000k" => DataRate.Mbps1, _ => DataRate.Mbps2 };
        var left = row["steps"].Split("; ").Skip(2).Select(step => decimal.Parse(step.Split('=')[1], NumberStyles.Float, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(2, left.Count);
        return Near(row, PerHour(Mean(at, row))) && left.Select((published, i) => Math.Abs(published - PerHour(Mean(at, row, i + 1))) <= published * 0.0001m).All(near => near);
    }

    private static decimal Mean(DataRate rate, PublishedRow row, int crc = 0)
    {
        var inputs = row.Split("inputs").Select(part => part.Split('=')).ToDictionary(part => part[0], part => int.Parse(part[1], CultureInfo.InvariantCulture), StringComparer.Ordinal);
        return FalsePackets.MeanTime(rate, inputs["addr_bytes"], inputs.TryGetValue("crc_bits", out var bits) ? bits / 8 : crc, inputs.GetValueOrDefault("pipes", 1));
    }

    private static decimal PerHour(decimal nanoseconds) => 3_600_000_000_000m / nanoseconds;

    // "rel 1e-4" or "abs 0.01".
    private static bool Near(PublishedRow row, decimal computed)
    {
        var (kind, size) = (row["tolerance"].Split(' ')[0], decimal.Parse(row["tolerance"].Split(' ')[1], NumberStyles.Float, CultureInfo.InvariantCulture));
        var result = decimal.Parse(row["result"], NumberStyles.Float, CultureInfo.InvariantCulture);
        return Math.Abs(result - computed) <= (kind == "rel" ? result * size : size);
    }
}
