using RadioLint.Findings;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Rules.Survey;

/// <summary>RL3306: too little was listened, or never when people use the band.</summary>
public sealed class SurveyTooShort() : SurveyRule(new(
    "RL3306", Severity.Info, "Survey too short or at a quiet time of day",
    "own rule: 10 min at each place, and some of it between 17:00 and 22:00 (common practice, no source)", "0.1"))
{
    private const int BusyFrom = 17;
    private const int BusyTo = 22;

    private static readonly Duration Least = new(600_000_000_000);

    public override IEnumerable<Finding> Check(SurveyEvidence survey)
    {
        foreach (var place in survey.Ranking.Places)
        {
            var logs = survey.Logs.Where(log => log.Log.Places.Contains(place, StringComparer.Ordinal)).ToList();
            if (logs.Count == 0 || logs.Exists(log => log.Lasted is null))
                continue;
            var lasted = logs.Aggregate(default(Duration), (sum, log) => sum + log.Lasted!.Value);
            if (lasted < Least)
            {
                yield return At(
                    logs[0].Entry?.Value.Lasted?.Place ?? logs[0].Place,
                    $"the survey at `{place}` lasted {Lapse.CutOff(lasted)}, less than {Lapse.CutOff(Least)}",
                    $"listen longer: what sends once a minute or less has hardly been heard");
            }
        }
        if (survey.Logs.All(log => log is { Begun: { } begun, Lasted: { } lasted } && !IsBusyHour(begun, lasted)))
        {
            var first = survey.Logs[0];
            yield return At(
                first.Entry?.Value.Taken?.Place ?? first.Place,
                $"nothing was listened to between {BusyFrom}:00 and {BusyTo}:00, when bands are fullest; `{first.Log.Name}` begins at {first.Begun:HH:mm}",
                $"survey once more in the evening, or at the hours at which the neighbours work");
        }
    }

    // True when any moment of it lies in the busy hours of any day; the first and the last moment count.
    private static bool IsBusyHour(DateTime begun, Duration lasted)
    {
        var until = begun.AddTicks(lasted.Nanoseconds / 100);
        var busy = begun.Date.AddHours(BusyFrom);
        if (begun > begun.Date.AddHours(BusyTo))
            busy = busy.AddDays(1);
        return until >= busy;
    }
}
