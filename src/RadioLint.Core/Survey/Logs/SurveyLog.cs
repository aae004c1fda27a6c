using System.Collections.Immutable;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What is known of a log besides itself.</summary>
public sealed record SurveyTerms
{
    /// <summary>From here upward a level counts as heard: that of the chips' own detector (nRF24L01+ Product Specification 1.0, 6.4 p25).</summary>
    public PowerLevel Threshold { get; init; } = new(-6_400);

    /// <summary>Where the whole log was taken; it counts for more than what the log says. Null when nobody says so.</summary>
    public string? Place { get; init; }

    /// <summary>When it was begun, for a log that does not say so.</summary>
    public DateTime? Started { get; init; }

    /// <summary>Time on each channel, for a log that does not say so.</summary>
    public Duration? Dwell { get; init; }

    /// <summary>How long it lasted, for a log that does not say so.</summary>
    public Duration? Lasted { get; init; }
}

/// <summary>How a log tells what was heard.</summary>
public enum SurveyForm
{
    /// <summary>Neither report nor table was met.</summary>
    None,

    /// <summary>Reports of the survey program.</summary>
    Reports,

    /// <summary>A table of counts.</summary>
    Counts,

    /// <summary>A table of levels in dBm.</summary>
    Levels,
}

/// <summary>What came of a log, its sweeps aside.</summary>
public sealed record SurveyLog
{
    /// <summary>The log as the user named it.</summary>
    public required string Name { get; init; }

    public required SurveyForm Form { get; init; }

    public int Lines { get; init; }

    public long Sweeps { get; init; }

    /// <summary>Rows and reports that are not used because something is wrong with them.</summary>
    public int Broken { get; init; }

    /// <summary>The first of them, and what is wrong with it.</summary>
    public (Place Place, string Fault)? FirstBroken { get; init; }

    /// <summary>Lines of more than <see cref="SurveyLimits.LongestLine"/> characters.</summary>
    public int TooLong { get; init; }

    /// <summary>Rows or sweeps of more than <see cref="SurveyLimits.MostPlaces"/> places.</summary>
    public int PassedOver { get; init; }

    /// <summary>Rows outside of 2400 MHz to 2525 MHz.</summary>
    public int Outside { get; init; }

    /// <summary>True when the log goes on after <see cref="SurveyLimits.MostLines"/>.</summary>
    public bool IsCut { get; init; }

    /// <summary>True when its last line has no end and is not used, as it may have been cut.</summary>
    public bool EndsOpen { get; init; }

    /// <summary>True when its lines tell times, or their arrival was seen.</summary>
    public bool HasTimes { get; init; }

    /// <summary>When it was begun; null when nobody knows.</summary>
    public DateTime? Begun { get; init; }

    /// <summary>From its first line to its last; else as the terms say; else as long as its samples take at least, without what lies between. Null when none is known.</summary>
    public Duration? Lasted { get; init; }

    /// <summary>The shortest time on a channel that it tells of, and where; null when it tells none.</summary>
    public (Duration Time, Place Place)? Dwell { get; init; }

    /// <summary>Its first line.</summary>
    public required Place Start { get; init; }

    /// <summary>In ordinal order.</summary>
    public required ImmutableArray<string> Places { get; init; }

    /// <summary>How often each channel was listened to, and how often something was heard there.</summary>
    public required ImmutableArray<long> Samples { get; init; }

    public required ImmutableArray<long> Heard { get; init; }
}
