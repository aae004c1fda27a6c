using RadioLint.Readback;

namespace RadioLint.Survey;

/// <summary>Bounds of what is read out of a survey's log, which anybody may have written.</summary>
public static class SurveyLimits
{
    /// <summary>Characters of a line. A row of a sweep in steps of 25 kHz has some 5,000 columns.</summary>
    public const int LongestLine = 50_000;

    /// <summary>Columns of a table.</summary>
    public const int MostColumns = 8_000;

    /// <summary>Lines of a log; what comes after them is not read.</summary>
    public const int MostLines = LogLimits.MostLines;

    /// <summary>Places of a log.</summary>
    public const int MostPlaces = 100;

    /// <summary>Characters of a place's name.</summary>
    public const int LongestPlace = 80;

    /// <summary>Samples of one channel in one sweep of a table that gives a row to each sample: then the next sweep begins, so that a channel that is never left is told of too.</summary>
    public const int MostSamples = 1_000;

    /// <summary>Lines that are looked at for a header: those before the first, and broken rows.</summary>
    public const int MostLooks = 10_000;

    /// <summary>Samples that one row may count.</summary>
    public const int MostCounted = 1_000_000;
}
