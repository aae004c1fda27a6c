using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Simulation;
using RadioLint.Units;

namespace RadioLint.Tests.Simulation.Variants;

/// <summary>The values of the three parts, held here and in the library's profiles apart from each other, are the same.</summary>
public class ProfileTests
{
    public static TheoryData<string> Parts => [.. ChipVariants.All.Select(each => each.Name)];

    [Fact]
    public void Both_know_the_same_parts() =>
        Assert.Equal(RadioParts.Names.Order(StringComparer.Ordinal), ChipVariants.All.Select(each => each.Name).Order(StringComparer.Ordinal));

    /// <summary>Each step and its bits; a byte whose lowest bit has no effect is listed under both values here.</summary>
    [Theory]
    [MemberData(nameof(Parts))]
    public void Power(string part)
    {
        var (variant, profile) = Of(part);
        var mask = profile.SetupRegister.PowerMask.Value;
        for (var bits = 0; bits < 8; bits++)
        {
            var step = Assert.Single(profile.PowerSteps, each => each.Bits == (bits & mask));
            Assert.Equal(new PowerLevel(100 * variant.PowerDbm[bits]), step.Step);
        }
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void Rates(string part)
    {
        var (variant, profile) = Of(part);
        Assert.Equal(variant.HasLowRate, profile.Rate(DataRate.Kbps250) is not null);
        foreach (var rate in Enum.GetValues<AirRate>().Where(each => each != AirRate.Kbps250 || variant.HasLowRate))
        {
            var row = profile.Rate(Map(rate))!;
            Assert.Equal(new PowerLevel(100 * variant.SensitivityDbm[(int)rate]), row.Sensitivity.Value);
            Assert.Equal(rate.AckWindow(), InTicks(row.AckWindow.Value));
        }
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void Times_levels_and_features(string part)
    {
        var (variant, profile) = Of(part);
        Assert.Equal(InTicks(profile.Timing.Start.Value), variant.StartTicks);
        Assert.Equal(InTicks(profile.Timing.PowerOn.Value), variant.PowerOnTicks);
        Assert.Equal(InTicks(profile.Timing.Detector.Value), variant.DetectorTicks);
        Assert.Equal(Ticks.Settle, InTicks(profile.Timing.Settle.Value));
        Assert.Equal(Ticks.CePulse, InTicks(profile.Timing.CePulse.Value));
        Assert.Equal(Ticks.CeToCsn, InTicks(profile.Timing.CeToCsn.Value));
        Assert.Equal(Ticks.LongestTransmission, InTicks(profile.Timing.TransmitLongest.Value));
        Assert.Equal(Ticks.RetryStep, InTicks(profile.RetryStep.Value));
        Assert.Equal(profile.Detector.Level.Value, new PowerLevel(100 * variant.DetectorDbm));
        Assert.Equal(profile.StrongestSignal.Value, new PowerLevel(100 * variant.StrongestDbm));
        Assert.Equal(profile.SpiFastest.Value.Hertz, variant.SpiHertz);
        Assert.Equal(profile.NeedsUnlock, variant.NeedsUnlock);
        Assert.Equal(profile.AfterMissedAck.Value == AfterMissedAck.Standby2, variant.RestsInStandby2);
        Assert.Equal(PayloadFifo.Levels, profile.Fifo.Value);
        Assert.Equal(RadioSettings.Pipes, profile.Pipes.Value);
    }

    /// <summary>What a fresh chip answers, and which bits it keeps at 0.</summary>
    [Theory]
    [MemberData(nameof(Parts))]
    public void Registers(string part)
    {
        var (variant, profile) = Of(part);
        var chip = new RadioLint.Simulation.Air().Add(variant);
        foreach (var register in profile.RegistersReset)
        {
            Assert.Equal(register.Reset.Bits, chip.ReadWide(register.Address));
            var zeros = profile.ZeroBitsOf(register.Name);
            for (var bit = 0; bit < 8 && register.Reset.Width == 1; bit++)
            {
                if ((zeros >> bit & 1) == 0)
                    continue;
                var before = chip.Violations.Count;
                chip.Transfer((byte)(Command.WRegister | register.Address), (byte)(1 << bit));
                Assert.True(chip.Violations.Count > before, $"{register.Name} bit {bit}");
            }
        }
    }

    /// <summary>Carrier to interferer at every distance, at every rate.</summary>
    [Theory]
    [MemberData(nameof(Parts))]
    public void Rejection(string part)
    {
        var (variant, profile) = Of(part);
        foreach (var rate in Enum.GetValues<AirRate>().Where(each => each != AirRate.Kbps250 || variant.HasLowRate))
        {
            for (var distance = 0; distance <= 125; distance++)
            {
                var apart = new Frequency(distance * 1_000_000L);
                Assert.Equal(profile.Interference.NeededAgainstOwnKind(Map(rate), apart), new Gain(100 * variant.OwnKind.Needed(rate, distance)));
                Assert.Equal(profile.Interference.NeededAgainstBlocker(Map(rate), apart), new Gain(100 * variant.Blocker.Needed(rate, distance)));
            }
        }
    }

    private static (ChipVariant Variant, RadioPart Profile) Of(string part) => (ChipVariants.Find(part)!, RadioParts.Find(part)!);

    private static DataRate Map(AirRate rate) => rate switch
    {
        AirRate.Kbps250 => DataRate.Kbps250,
        AirRate.Mbps1 => DataRate.Mbps1,
        _ => DataRate.Mbps2,
    };

    private static long InTicks(Duration duration) => duration.Nanoseconds * Ticks.PerMicrosecond / 1_000;
}
