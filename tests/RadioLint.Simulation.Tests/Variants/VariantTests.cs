using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Variants;

/// <summary>Where parts differ. D2 = nRF24L01 Product Specification 2.0, D7 = Si24R1 datasheet.</summary>
public class VariantTests
{
    private static readonly Link Dynamic = new() { DynPd = 0x3F, Feature = 0x06 };

    /// <summary>D2 Table 24 p54: no bit for 250 kbps; the byte for it leaves 1 Mbps, so the pair does not meet until the other is there too.</summary>
    [Fact]
    public void Earlier_part_at_250_kbps()
    {
        var link = new Link { Rate = AirRate.Kbps250 };
        var pair = new Pair(ChipVariants.Earlier) { Link = link }.Start().Load(8).Pulse();
        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        Assert.Contains(pair.Sender.Violations, each => each.Kind == ViolationKind.ReservedBit && each.Subject == Register.RfSetup);
        Assert.Equal(0x06, pair.Sender.Read(Register.RfSetup));

        pair = new Pair(ChipVariants.Earlier).Start(link, new() { Rate = AirRate.Mbps1 }).Load(8).Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>The two parts work together at 1 and 2 Mbps, also with dynamic length and payloads in acknowledgements (D2 Table 16 p46-47).</summary>
    [Theory]
    [InlineData(AirRate.Mbps1)]
    [InlineData(AirRate.Mbps2)]
    public void Mixed_pairs(AirRate rate)
    {
        foreach (var sender in ChipVariants.All)
        {
            foreach (var receiver in ChipVariants.All)
            {
                var pair = new Pair(sender, receiver) { Link = Dynamic with { Rate = rate } }.Start().Load(19);
                pair.Receiver.Transfer(Command.WAckPayload | 1, 0x55);
                pair.Pulse();

                Assert.Equal(StatusFlags.TxDs | StatusFlags.RxDr, pair.Sender.Status & StatusFlags.All);
                Assert.Equal(Pair.Payload(19), pair.Receiver.RxFifo.Payload(0).ToArray());
                Assert.Empty(pair.Sender.Violations);
                Assert.Empty(pair.Receiver.Violations);
            }
        }
    }

    /// <summary>D2 Table 16 p46, Table 24 note c p58: FEATURE and DYNPD are dead until ACTIVATE 0x73, and again after a second one.</summary>
    [Fact]
    public void Unlocking()
    {
        var chip = new Pair(ChipVariants.Earlier).Sender;
        Link.Write(chip, Register.Feature, 0x06);
        Link.Write(chip, Register.DynPd, 0x3F);
        Assert.Equal((0, 0), (chip.Read(Register.Feature), chip.Read(Register.DynPd)));
        Assert.Equal([ViolationKind.FeatureOff, ViolationKind.FeatureOff], chip.Violations.Select(each => each.Kind));

        chip.Transfer(Command.Activate, Command.ActivateKey);
        Assert.Equal((0, 0), (chip.Read(Register.Feature), chip.Read(Register.DynPd)));
        Link.Write(chip, Register.Feature, 0x06);
        Link.Write(chip, Register.DynPd, 0x3F);
        Assert.Equal((0x06, 0x3F), (chip.Read(Register.Feature), chip.Read(Register.DynPd)));
        Assert.True(chip.Settings.IsDynamic(3));

        chip.Transfer(Command.Activate, Command.ActivateKey);
        Assert.Equal((0, 0), (chip.Read(Register.Feature), chip.Read(Register.DynPd)));
        Assert.False(chip.Settings.IsDynamic(3));
        Assert.Equal(2, chip.Violations.Count);
    }

    /// <summary>D2 Table 16 p46: other data than 0x73 unlocks nothing.</summary>
    [Theory]
    [InlineData(0x72)]
    [InlineData(0x00)]
    public void Wrong_key(byte key)
    {
        var chip = new Pair(ChipVariants.Earlier).Sender;
        chip.Transfer(Command.Activate, key);
        Link.Write(chip, Register.Feature, 0x06);

        Assert.Equal(0, chip.Read(Register.Feature));
        Assert.Equal([ViolationKind.UnknownCommand, ViolationKind.FeatureOff], chip.Violations.Select(each => each.Kind));
    }

    /// <summary>nRF24L01+ Product Specification 1.0, Table 20 p51 has no ACTIVATE: there the features are reachable at once.</summary>
    [Fact]
    public void The_later_part_has_no_lock()
    {
        var chip = new Pair().Sender;
        Link.Write(chip, Register.Feature, 0x06);
        Assert.Equal(0x06, chip.Read(Register.Feature));
        Assert.Empty(chip.Violations);

        chip.Transfer(Command.Activate, Command.ActivateKey);
        Assert.Equal(ViolationKind.UnknownCommand, Assert.Single(chip.Violations).Kind);
    }

    /// <summary>D2 Table 16 p46: R_RX_PL_WID is locked too.</summary>
    [Fact]
    public void Width_while_locked()
    {
        var pair = new Pair(receiver: ChipVariants.Earlier).Start().Load(8).Pulse();
        var miso = new byte[2];
        pair.Receiver.Transfer([Command.RRxPlWid, 0], miso);

        Assert.Equal(0, miso[1]);
        Assert.Equal(ViolationKind.FeatureOff, Assert.Single(pair.Receiver.Violations).Kind);
    }

    /// <summary>D7 section 6: the three-bit power field; W63 and W64 of facts/radio-checks.csv.</summary>
    [Theory]
    [InlineData("W63", 4, 0)]
    [InlineData("W64", 7, 0)]
    public void Si24R1_power(string id, int dbm, int onThePlus)
    {
        var row = FactTable.Read("radio-checks.csv").Single(each => each["id"] == id);
        Assert.StartsWith($"{dbm} dBm", row["expected"], StringComparison.Ordinal);
        var value = Convert.ToByte(row["inputs"].Split(' ')[2], 16);

        Assert.Equal(dbm, Sent(ChipVariants.Si24R1, value));
        Assert.Equal(onThePlus, Sent(ChipVariants.Plus, value));
    }

    /// <summary>nRF24L01+ Product Specification 1.0, Table 28 p58-59: W22 to W25 of facts/radio-checks.csv, from the byte back to rate and power.</summary>
    [Theory]
    [InlineData("W22", AirRate.Kbps250, 0)]
    [InlineData("W23", AirRate.Mbps1, -6)]
    [InlineData("W24", AirRate.Mbps2, -18)]
    [InlineData("W25", AirRate.Mbps2, 0)]
    public void Setup_byte(string id, AirRate rate, int dbm)
    {
        var row = FactTable.Read("radio-checks.csv").Single(each => each["id"] == id);
        var chip = new Pair().Sender;
        Link.Write(chip, Register.RfSetup, Convert.ToByte(row["expected"], 16));

        Assert.Equal((rate, dbm), (chip.Settings.Rate, chip.Settings.PowerDbm));
    }

    /// <summary>Start-up: 1.5 ms, and up to 2 ms for Si24R1 (D7 section 3); SPI limits (D2 8.2 p45); the level of the detector (D7 section 6).</summary>
    [Fact]
    public void Start_clock_and_detector()
    {
        foreach (var (variant, start, hertz, level) in new[]
        {
            (ChipVariants.Plus, 1500, 10_000_000, -64), (ChipVariants.Earlier, 1500, 8_000_000, -64), (ChipVariants.Si24R1, 2000, 10_000_000, -60),
        })
        {
            var pair = new Pair(receiver: variant);
            pair.Link.Configure(pair.Receiver, isReceiver: true);
            pair.Air.Advance(Ticks.Microseconds(start) - 1);
            Assert.Equal(ChipState.StartUp, pair.Receiver.State);
            pair.Air.AdvanceBy(1);
            Assert.Equal(ChipState.Standby1, pair.Receiver.State);
            pair.Receiver.SpiClock(hertz);
            Assert.Empty(pair.Receiver.Violations);
            pair.Receiver.SpiClock(hertz + 1);
            Assert.Single(pair.Receiver.Violations);

            pair.Receiver.Ce(true, pair.Air.Now);
            pair.Air.Add(new Interferer(0, pair.Air.Now + Ticks.PerMillisecond, 74, level));
            pair.Air.AdvanceBy(Ticks.PerMillisecond);
            Assert.Equal(0, pair.Receiver.Read(Register.Rpd));
            pair.Air.Add(new Interferer(pair.Air.Now, Ticks.Never, 74, level + 0.1));
            pair.Air.AdvanceBy(variant.DetectorTicks - 1);
            Assert.Equal(0, pair.Receiver.Read(Register.Rpd));
            pair.Air.AdvanceBy(1);
            Assert.Equal(1, pair.Receiver.Read(Register.Rpd));
        }
    }

    /// <summary>nRF24L01+ Product Specification 1.0, Table 28 note b p63: the rest of the retry delay in standby-II; D2 p58: in standby-I.</summary>
    [Fact]
    public void Rest_before_a_repeat()
    {
        foreach (var (variant, isInStandby2) in new[] { (ChipVariants.Plus, true), (ChipVariants.Earlier, false) })
        {
            var pair = new Pair(variant).Start(receiver: new() { Channel = 10 }).Load(8);
            Assert.False(pair.Sender.IsInStandby2);
            // Sent from 130 to 267 us; the window closes 380 us later, the delay of 500 us ends at 767 us.
            pair.Pulse(646);
            Assert.Equal(ChipState.AckListening, pair.Sender.State);
            pair.Air.AdvanceBy(Ticks.Microseconds(2));

            Assert.Equal(ChipState.RetryWait, pair.Sender.State);
            Assert.Equal(isInStandby2, pair.Sender.IsInStandby2);
            pair.Air.AdvanceBy(Ticks.Microseconds(120));
            Assert.Equal(ChipState.TxSettling, pair.Sender.State);
        }
    }

    private static int Sent(ChipVariant variant, byte setup)
    {
        var dbm = int.MinValue;
        var pair = new Pair(variant) { Link = new() { EnAa = 0, Retries = 0 } }.Start();
        pair.Air.Sent = packet => dbm = packet.PowerDbm;
        Link.Write(pair.Sender, Register.RfSetup, setup);
        pair.Load(8).Pulse();
        return dbm;
    }
}
