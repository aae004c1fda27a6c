using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>A time, or a share of the period.</summary>
public sealed record Jitter(Duration? Time, Share? Share);

/// <summary>A time after the beat; null for `spread`.</summary>
public sealed record Offset(Duration? Time)
{
    public bool IsSpread => Time is null;
}

/// <summary>So many events in so much time.</summary>
public sealed record EventRate(int Count, Duration Per);

/// <summary>A pipe's number, or whether it is the sender's own; all null when nothing is said.</summary>
public sealed record PipeChoice(int? Number, bool? Own);
