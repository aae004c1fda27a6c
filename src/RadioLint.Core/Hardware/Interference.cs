using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>How far off the own carrier: at a frequency, or anywhere beyond it.</summary>
public readonly record struct Offset(Frequency From, bool IsBeyond)
{
    /// <summary>True when this line of a table holds at a distance, as long as no line further out does.</summary>
    public bool Reaches(Frequency distance) => IsBeyond ? distance > From : distance >= From;
}

/// <summary>How much stronger than an interferer the wanted signal must be; a negative figure tolerates a stronger interferer.</summary>
public sealed record InterferenceRow(DataRate Rate, Offset Offset, Gain Needed, Origin Origin);

/// <summary>What a receiver tolerates beside its channel.</summary>
/// <param name="Blocker">By the regulator's method.</param>
/// <param name="OwnKind">From a radio of the same modulation.</param>
/// <param name="ClockStep">At multiples of it the receiver is worse by <paramref name="ClockPenalty"/>.</param>
public sealed record Interference(
    ImmutableArray<InterferenceRow> Blocker, ImmutableArray<InterferenceRow> OwnKind, Fact<Frequency> ClockStep, Fact<Gain> ClockPenalty)
{
    /// <summary>What is needed against a foreign signal so far off; null at a rate without a table.</summary>
    public Gain? NeededAgainstBlocker(DataRate rate, Frequency distance) => Needed(Blocker, rate, distance);

    /// <summary>What is needed against a radio of the same kind so far off; null at a rate without a table.</summary>
    public Gain? NeededAgainstOwnKind(DataRate rate, Frequency distance) => Needed(OwnKind, rate, distance);

    // Between two listed offsets the nearer one holds: the data sheet promises no more there.
    private Gain? Needed(ImmutableArray<InterferenceRow> rows, DataRate rate, Frequency distance)
    {
        var row = rows.Where(each => each.Rate == rate && each.Offset.Reaches(distance)).OrderBy(each => each.Offset.From).LastOrDefault();
        if (row is null)
            return null;
        var isClock = distance.Hertz != 0 && distance.Hertz % ClockStep.Value.Hertz == 0;
        return isClock ? row.Needed + ClockPenalty.Value : row.Needed;
    }
}

/// <summary>The most that a sender itself emits beside its channel, against its carrier.</summary>
public sealed record SkirtRow(DataRate Rate, Frequency Offset, Gain Level, Origin Origin);
