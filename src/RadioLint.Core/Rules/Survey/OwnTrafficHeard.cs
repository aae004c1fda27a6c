using RadioLint.Findings;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Rules.Survey;

/// <summary>RL3305: the survey has counted the network's own packets.</summary>
public sealed class OwnTrafficHeard() : SurveyRule(new(
    "RL3305", Severity.Warning, "Survey contains the network's own traffic",
    "own rule: while own nodes run, or nobody says that they are silent, the planned channel is heard more than twice as often as any that lies 3 MHz to 6 MHz away, in 20 samples or more", "0.1")
{
    // What the network itself sends is no reason to leave the channel.
    Silences = ["RL3304"],
})
{
    // A signal of the network fills 2 MHz at most and leaks into the next channels; what is wider is somebody else's.
    private const int Nearest = 3;
    private const int Farthest = 6;
    private const long Fewest = 20;

    public override IEnumerable<Finding> Check(SurveyEvidence survey)
    {
        if (survey.Ranking.Planned is not { } planned)
            yield break;
        foreach (var (log, entry) in survey.Logs.Select(each => (each.Log, each.Entry)))
        {
            if (entry?.Value.OwnNodesSilent is { Value: true } || log.Heard[planned] < Fewest || !IsPeak(log, planned))
                continue;
            var share = new Share(log.Heard[planned] * 1_000_000 / log.Samples[planned]);
            yield return At(
                entry?.Value.OwnNodesSilent?.Place ?? entry?.Place.FirstLine ?? log.Start,
                $"`{log.Name}` hears channel {planned}, the planned one, {ChannelReasons.Shown(share)} of the time and its surroundings less than half as often: those are the network's own packets",
                $"switch the network's nodes off and survey anew, then state `own-nodes: silent`: until then the planned channel looks worse than it is") with { Subject = survey.Network };
        }
    }

    // Shares are compared crosswise, in whole numbers.
    private static bool IsPeak(SurveyLog log, int planned)
    {
        var seen = 0;
        for (var away = Nearest; away <= Farthest; away++)
        {
            foreach (var other in new[] { planned - away, planned + away })
            {
                if (other < 0 || other >= Sweep.Channels || log.Samples[other] == 0)
                    continue;
                seen++;
                if ((decimal)log.Heard[planned] * log.Samples[other] <= 2m * log.Heard[other] * log.Samples[planned])
                    return false;
            }
        }
        return seen > 0;
    }
}
