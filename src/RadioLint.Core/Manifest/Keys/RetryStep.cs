using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>What SETUP_RETR can hold: 250 us to 4000 us in steps of 250 us, and 0 to 15 (nRF24L01+ Product Specification 1.0, Table 28 p58).</summary>
internal static class RetryStep
{
    private const int MostRepetitions = 15;

    private static readonly List<string> Steps =
        [.. Enumerable.Range(1, (int)(OnAir.LongestRetryDelay.Nanoseconds / OnAir.RetryStep.Nanoseconds)).Select(step => $"{OnAir.RetryStep * step}")];

    private static readonly List<string> Limits =
        [.. Enumerable.Range(0, MostRepetitions + 1).Select(limit => FormattableString.Invariant($"{limit}"))];

    public static Finding? Judge(LocatedScalar scalar, Duration delay) =>
        delay.Nanoseconds % OnAir.RetryStep.Nanoseconds == 0 && delay >= OnAir.RetryStep && delay <= OnAir.LongestRetryDelay
            ? null
            : ValueNotInList.At(
                scalar.Place, scalar.Text, $"a retry delay: {OnAir.RetryStep} to {OnAir.LongestRetryDelay} in steps of {OnAir.RetryStep}", Steps, $"{Nearest(delay)}");

    public static Finding? JudgeLimit(LocatedScalar scalar, int limit) =>
        limit is >= 0 and <= MostRepetitions
            ? null
            : ValueNotInList.At(
                scalar.Place, scalar.Text, FormattableString.Invariant($"a retry limit: 0 to {MostRepetitions}"), Limits, Limits[limit < 0 ? 0 : MostRepetitions]);

    // The longer of two equally near: the shorter one might not leave time for the acknowledgement.
    private static Duration Nearest(Duration delay)
    {
        var steps = (delay.Nanoseconds + (OnAir.RetryStep.Nanoseconds / 2)) / OnAir.RetryStep.Nanoseconds;
        return OnAir.RetryStep * Math.Min(Math.Max(steps, 1), Steps.Count);
    }
}
