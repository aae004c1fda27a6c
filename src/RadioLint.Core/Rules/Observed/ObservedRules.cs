using System.Collections.Immutable;
using RadioLint.Findings;

namespace RadioLint.Rules.Observed;

/// <summary>Every rule on what nodes print, written out by hand, in the order of judgement: each group is asked only while those before it find nothing.</summary>
public static class ObservedRules
{
    /// <summary>Is the bus alive?</summary>
    public static ImmutableArray<ObservedRule> OfBus { get; } = ImmutableArray.Create<ObservedRule>(
        new BusReadsZero(), new BusReadsOnes(), new CommandsDamaged(), new ShiftedByOneBit(), new BitsLost());

    /// <summary>Is it a different moment?</summary>
    public static ImmutableArray<ObservedRule> OfMoment { get; } = ImmutableArray.Create<ObservedRule>(new WritesDoNotArrive(), new RegistersLost(), new PreviousPlan());

    /// <summary>Field by field.</summary>
    public static ImmutableArray<ObservedRule> OfFields { get; } = ImmutableArray.Create<ObservedRule>(
        new ReservedBits(), new ChannelDiffers(), new AddressDiffers(), new PipesDiffer(), new AcknowledgementAddress(), new ConfigDiffers(), new RateDiffers(),
        new SettingDiffers());

    /// <summary>What the moment shows, whatever the plan says.</summary>
    public static ImmutableArray<ObservedRule> OfLive { get; } = ImmutableArray.Create<ObservedRule>(new SenderStopped(), new PacketsLost(), new NobodyFetches());

    /// <summary>All descriptors, those of packets and digests too, in the order of their IDs.</summary>
    public static ImmutableArray<Descriptor> All { get; } = ImmutableArray.CreateRange(
        OfBus.Concat(OfMoment).Concat(OfFields).Concat(OfLive).Select(rule => rule.Descriptor)
            .Concat([PacketDoesNotFit.Rule, OtherConfiguration.Rule, MixedIssues.Rule]).OrderBy(rule => rule.Id, StringComparer.Ordinal));
}
