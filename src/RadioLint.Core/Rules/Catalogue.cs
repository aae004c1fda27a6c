using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Rules.Addressing;
using RadioLint.Rules.Capacity;
using RadioLint.Rules.Fleet;
using RadioLint.Rules.Energy;
using RadioLint.Rules.HostCode;
using RadioLint.Rules.Hygiene;
using RadioLint.Rules.Links;
using RadioLint.Rules.Observed;
using RadioLint.Rules.Payloads;
using RadioLint.Rules.Range;
using RadioLint.Rules.Spectrum;
using RadioLint.Rules.Supply;
using RadioLint.Rules.Survey;
using RadioLint.Rules.Wiring;

namespace RadioLint.Rules;

/// <summary>Every rule, written out by hand, one line each, in the order of their IDs.</summary>
public static class Catalogue
{
    /// <summary>Rules that look at the network.</summary>
    public static ImmutableArray<Rule> Rules { get; } = ImmutableArray.Create<Rule>(
        // RL1 wiring
        new SignalNotAssigned(),
        new PinTakenTwice(),
        new UnknownPin(),
        new PinHasAnotherJob(),
        new PinCannotDrive(),
        new PinWithoutSpiRole(),
        new SpiSpreadOverUnits(),
        new OtherThanStockPins(),
        new DataLinesSwapped(),
        new ProgrammingNamesTaken(),
        new SlaveSelectLeftFloating(),
        new ResetPinUsed(),
        new DebugPortNotReleased(),
        new IrqPinCannotInterrupt(),
        new IrqEdgeWrong(),
        new IrqWithoutUse(),
        new UnitDrivesRadioPin(),
        new ConsolePinUsed(),
        new BarePinNumber(),
        new ModuleHeaderUnclear(),
        new CeTied(),
        new CsnNotDriven(),
        new LinesUndefinedAtReset(),
        new InterruptLineShared(),
        new PinOfOtherVoltage(),
        new SlowPinOnSpi(),
        new LabelOfTwoPins(),
        new IdleHighOnLowStrap(),
        new IdleLowOnHighStrap(),
        new FlashPinUsed(),
        new MisoOnStrap(),
        new SharedChipSelect(),
        new MisoNotReleased(),
        new SelectNotHeld(),
        new SckTooFast(),
        new SckTooFastForLoad(),
        new SckNotAStep(),
        new TransferHoldsUpRadio(),
        new WiresLong(),
        new SelectOfOtherDevice(),
        new ShifterTooSlow(),
        new SignalAboveMaximum(),
        new SupplyOutsideFiveVoltWindow(),
        new MisoLevelTooLow(),
        new GroundsApart(),
        new FiveVoltLogicOnFrontEnd(),
        // RL2 supply
        new OutsideOperatingRange(),
        new RadioOnFiveVolts(),
        new FreshBatteryTooHigh(),
        new EmptyBatteryTooLow(),
        new SourceTooWeak(),
        new AmplifierOnBoardPin(),
        new NotASupply(),
        new RegulatorInDropout(),
        new AdapterFedTooLow(),
        new RegulatorOverfed(),
        new RegulatorUnstable(),
        new SwitcherWithoutFilter(),
        new ClockTooFast(),
        new BrownOutTooHigh(),
        new MotorOnRail(),
        new AwakeBeforeReset(),
        new FedFromPortPin(),
        new FedFromProgrammingHeader(),
        new NoBulkCapacitor(),
        new CapacitorForSupply(),
        new CapacitorForWeakCell(),
        new CoinCellAmplified(),
        new PulseSagsBattery(),
        // RL3 spectrum
        new ChannelOutOfReach(),
        new OccupiedBandLeavesRegion(),
        new CloseToProtectedBand(),
        new NoRegionDeclared(),
        new TooMuchRadiated(),
        new AntennaGainUnknown(),
        new AverageTooMuch(),
        new TestSignalOn(),
        new FrontEndOutOfBand(),
        new InsideWifiChannel(),
        new InsideWideWifiChannel(),
        new OnAdvertisingChannel(),
        new OwnWifiNear(),
        new NetworksTooClose(),
        // RL4 addressing
        new AddressWidthNotOffered(),
        new AddressOfOtherWidth(),
        new MirroredSpelling(),
        new FactoryAddress(),
        new WeakAddress(),
        new NoiseTakenForPackets(),
        new TextIsNoAddress(),
        new PipePrefixDiffers(),
        new LastByteTwice(),
        new MoreAddressesThanPipes(),
        new UpperBytesUnknown(),
        new Pipe0ListensAndSends(),
        new PipeNotEnabled(),
        new IdlePipe(),
        new NobodyListens(),
        new EndsDiffer(),
        new AcknowledgedTwice(),
        new PacketsTakenForCopies(),
        new SenderUnknown(),
        new BroadcastAcknowledged(),
        new SleeperIsDeaf(),
        new RelayPathBroken(),
        new NodeNumberTaken(),
        new ReturnGoesToAnybody(),
        new PrefixShared(),
        // RL5 link
        new RateThatPartLacks(),
        new UnlockNeeded(),
        new LookAlikeMixed(),
        new Pipe0DoesNotAcknowledge(),
        new RetryBeforeAcknowledge(),
        new RetryTooShortForRate(),
        new RetriesWithoutAcknowledge(),
        new RepeatInStep(),
        new SendTakesTooLong(),
        new ReturnPayloadNotCarried(),
        new NoAcknowledgeNotEnabled(),
        new MustArriveUnacknowledged(),
        new ReturnsWaitTogether(),
        new ReplyComesOneLater(),
        new OneByteCrc(),
        new CrcOff(),
        new LengthOutOfReach(),
        new DynamicLengthIncomplete(),
        new DynamicWithoutAcknowledge(),
        new LengthMostlyPadding(),
        new MessageWithoutNumbers(),
        new ReceiverOverflows(),
        new NewTakenForRepeated(),
        new ListensTooShort(),
        // RL6 payload
        new SizeDependsOnCompiler(),
        new FloatWithoutWidth(),
        new EnumWithoutWidth(),
        new TruthOrCharacter(),
        new BitFieldOfCompiler(),
        new TextWithoutLength(),
        new CompilersDisagree(),
        new PaddingOnAir(),
        new UnalignedForCore(),
        new ByteOrderNotStated(),
        new PayloadTooLong(),
        new FieldTooSmall(),
        new LayoutWithoutNewVersion(),
        new KindsOnOnePipe(),
        new SameTypeOtherLayout(),
        new NoSequenceNumber(),
        new TimeStampWraps(),
        new CounterTurnsInGap(),
        // RL7 capacity and range
        // RL7 capacity, energy, range
        new ChannelTooBusy(),
        new SameBeat(),
        new HubTooSlow(),
        new RoundTooLong(),
        new BatteryTooSmall(),
        new ListensOnBattery(),
        new AlwaysOnUndeclared(),
        new RegulatorEatsBattery(),
        new StandbyAsleep(),
        new CeHighIdle(),
        new LinesFloatAsleep(),
        new WarnsTooLate(),
        new ColdCountsHalf(),
        new LinkMarginSmall(),
        new NodesTooClose(),
        new AmplifierWithoutAntenna(),
        new ReturnWeaker(),
        new AntennaObstructed(),
        new TemperatureOutOfRange(),
        // RL8 hygiene
        new NeverUsed(),
        new NodeNotOnTheSiteSheet(),
        new BatchUnknown(),
        new NothingRecorded(),
        new SettingStillOpen(),
        new LeavesNodeUnreachable(),
        new NoFallBack());

    /// <summary>What can go wrong before there is a network: reported while reading, or about the rules' own settings.</summary>
    public static ImmutableArray<Descriptor> OfReading { get; } = ImmutableArray.Create(
        SyntaxError.Rule,
        DuplicateKey.Rule,
        UnknownKey.Rule,
        WrongType.Rule,
        ValueNotInList.Rule,
        AmbiguousScalar.Rule,
        FormatVersion.Rule,
        IncludeFault.Rule,
        IncludeOverridden.Rule,
        UndefinedReference.Rule,
        NotPlainText.Rule,
        UnitMissing.Rule,
        NothingToCheck.Rule,
        UnusableName.Rule,
        ReasonlessAllowance.Rule,
        UnknownRule.Rule,
        IdleAllowance.Rule,
        ExpiredAllowance.Rule,
        LockedRule.Rule,
        MissingFacts.Rule);

    /// <summary>What only `emit` can meet: faults of templates and of the folder that it writes to.</summary>
    public static ImmutableArray<Descriptor> OfEmitting { get; } = ImmutableArray.Create(
        StaleFile.Rule,
        EditedFile.Rule,
        TemplateFault.Rule,
        SameOutputFile.Rule,
        LeftOverFile.Rule);

    /// <summary>What only a whole run of the command can meet: faults of what it keeps besides manifests.</summary>
    public static ImmutableArray<Descriptor> OfRuns { get; } = ImmutableArray.Create(BaselineEntryGone.Rule);

    /// <summary>What only `readback` can meet: faults that a node's own registers, packets and digests show.</summary>
    public static ImmutableArray<Descriptor> OfReadback => ObservedRules.All;

    /// <summary>What only `survey` can meet: faults of a survey of the band, and what it shows.</summary>
    public static ImmutableArray<Descriptor> OfSurvey => SurveyRules.All;

    /// <summary>What only the compiler can meet: faults of C# code beside a manifest.</summary>
    public static ImmutableArray<Descriptor> OfHostCode => HostRules.All;

    /// <summary>What a manifest is checked for, in the order of the IDs.</summary>
    public static ImmutableArray<Descriptor> OfManifests { get; } =
        ImmutableArray.CreateRange(Rules.Select(rule => rule.Descriptor).Concat(OfReading).Concat(OfEmitting).Concat(OfRuns).OrderBy(rule => rule.Id, StringComparer.Ordinal));

    /// <summary>All of them, in the order of their IDs; those on C# code are the last.</summary>
    public static ImmutableArray<Descriptor> All { get; } =
        ImmutableArray.CreateRange(OfManifests.Concat(OfReadback).Concat(OfSurvey).OrderBy(rule => rule.Id, StringComparer.Ordinal)).AddRange(OfHostCode);

    /// <summary>The rule with an ID, or null.</summary>
    public static Descriptor? Find(string id) => All.FirstOrDefault(rule => string.Equals(rule.Id, id, StringComparison.Ordinal));
}
