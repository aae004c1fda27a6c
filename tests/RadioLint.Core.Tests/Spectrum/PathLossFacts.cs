using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Paths and budgets, beside the rows that WorkedExampleTests reads.</summary>
public sealed class PathLossFacts
{
    private static readonly Frequency At = PathLoss.MidBand;

    // A loss grows with distance and is never less than free space (ITU-R P.525), whatever the model.
    [Theory, InlineData(Setting.Open), InlineData(Setting.House), InlineData(Setting.Office), InlineData(Setting.Hall)]
    public void Farther_is_never_less(Setting setting)
    {
        var last = new Gain(0);
        for (var millimetres = 1L; millimetres < 2_000_000; millimetres += (millimetres / 7) + 1)
        {
            var loss = Most(setting, new(millimetres), 1_500, 1_500);
            Assert.True(loss >= last, $"{millimetres} mm");
            Assert.True(loss >= PathLoss.FreeSpace(At, new(millimetres)), $"{millimetres} mm");
            last = loss;
        }
        Assert.True(last.Centi > 9_000);
    }

    // PROP-07 and PROP-08: at 1.5 m the ground takes away from 230 m on; up to there free space (PROP-02) holds.
    [Fact]
    public void The_ground_counts_from_the_cross_over_on()
    {
        var cross = PathLoss.CrossOver(At, new(1_500), new(1_500));
        Assert.Equal(PathLoss.FreeSpace(At, cross), PathLoss.TwoRay(At, cross, new(1_500), new(1_500)));
        Assert.Equal(9_204, PathLoss.TwoRay(At, new(300_000), new(1_500), new(1_500)).Centi);
        Assert.Equal(9_204, Most(Setting.Open, new(300_000), 1_500, 1_500).Centi);
        // Without a height the ground cannot be counted: free space, 89.74 dB (steps of PROP-08).
        Assert.Equal(8_974, Most(Setting.Open, new(300_000), 1_500, null).Centi);
    }

    // Indoors the worse of P.1238 (PROP-03: 71.75 dB with a floor of 4 dB, so 67.75 dB) and free space with walls; LINK-04: 84.50 dB of concrete outdoors.
    [Fact]
    public void Obstacles_add_up()
    {
        Assert.Equal(7_175, Most(Setting.House, new(10_000), null, null, new Obstacle(1, "floor", null)).Centi);
        Assert.Equal(6_775, Most(Setting.House, new(10_000), null, null, new Obstacle(1, "plasterboard wall", null)).Centi);
        Assert.Equal(6_020 + (2 * 1_476), Most(Setting.House, new(10_000), null, null, new Obstacle(2, "concrete wall", null)).Centi);
        Assert.Equal(8_450, Most(Setting.Open, new(30_000), null, null, new Obstacle(1, "concrete wall", null)).Centi);
        // PROP-09: 10 m of leaves take 5.80 dB, 50 m 17.09 dB; from 400 m on no figure is published, so no more is counted.
        Assert.Equal(6_020 + 580, Most(Setting.Open, new(10_000), null, null, new Obstacle(1, "vegetation", new(10_000))).Centi);
        Assert.Equal(PathLoss.Vegetation(At, new(400_000)), PathLoss.Vegetation(At, new(900_000)));
        Assert.Equal(6_020 + 249, PathEstimate.Least(new(10_000), [new(new Obstacle(1, "glass", null), default), new(new Obstacle(1, "vegetation", new(9_000)), default)]).Centi);
    }

    // 3GPP TR 38.901, Table 7.4.3-1, newest edition, coated glass: 25.4 + 0.11 f, 25.67 dB; floors of P.1238: 4n, 15 + 4 (n - 1), 6 + 3 (n - 1).
    [Fact]
    public void Walls_and_floors_are_those_of_the_tables()
    {
        Assert.Equal(2_567, WallLoss.Of("coated glass")!.Value.Centi);
        Assert.True(WallLoss.Of("metal wall") >= WallLoss.Of("coated glass"));
        Assert.Equal([1_476, 514, 144, 249, 398, 109], Array.ConvertAll(
            ["concrete wall", "wood wall", "plywood wall", "glass", "brick wall", "plasterboard wall"], (string wall) => WallLoss.Of(wall)!.Value.Centi));
        Assert.Null(WallLoss.Of("floor"));
        Assert.Equal([0, 400, 800], Array.ConvertAll([0, 1, 2], floors => PathLoss.Floors(Setting.House, floors).Centi));
        Assert.Equal([1_500, 1_900, 2_300], Array.ConvertAll([1, 2, 3], floors => PathLoss.Floors(Setting.Office, floors).Centi));
        Assert.Equal([600, 900, 1_200], Array.ConvertAll([1, 2, 3], floors => PathLoss.Floors(Setting.Hall, floors).Centi));
    }

    // E01-ML01DP5 module specification 1.4: -96 dBm at 250 kbps. Other rates and other front ends: the chip's own (nRF24L01+ Product Specification 1.0, Table 7).
    [Theory]
    [InlineData("E01-ML01DP5", DataRate.Kbps250, -9_600)]
    [InlineData("E01-ML01DP5", DataRate.Mbps1, -8_500)]
    [InlineData("RFX2401C", DataRate.Kbps250, -9_400)]
    [InlineData("nRF21540", DataRate.Mbps2, -8_200)]
    public void Behind_a_front_end_a_receiver_hears_what_its_sheet_says(string front, DataRate rate, int expected)
    {
        var node = SmallNetwork.Read(SmallNetwork.With(hub: $"radio: {{ front-end: {front}, antenna: whip }}")).Nodes[0];
        Assert.Equal(expected, LinkBudget.SensitivityOf(node, rate)!.Value.Centi);
        Assert.Equal(FrontEnds.Find(front)!.ReceiveGain.Value, LinkBudget.AtChip(node, new(-5_000)) - new PowerLevel(-5_000));
        Assert.Equal((new Gain(200), new Gain(0)), LinkBudget.Antenna(node));
    }

    private static Gain Most(Setting setting, Length distance, long? one, long? other, params Obstacle[] through) => PathEstimate.Most(
        setting, distance, one is { } first ? new Length(first) : null, other is { } second ? new Length(second) : null,
        [.. through.Select(each => new Stated<Obstacle>(each, default))]);
}
