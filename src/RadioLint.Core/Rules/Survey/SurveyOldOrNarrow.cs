using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Survey;

namespace RadioLint.Rules.Survey;

/// <summary>RL3301: the band was surveyed long ago, nobody knows when, or not where the network receives.</summary>
public sealed class SurveyOldOrNarrow() : SurveyRule(new(
    "RL3301", Severity.Info, "Survey old, undated or from too few places",
    "own rule: not older than 90 days, and one survey at each kind of node that receives", "0.1"))
{
    private const int MostDays = 90;

    public override IEnumerable<Finding> Check(SurveyEvidence survey)
    {
        foreach (var log in survey.Logs)
        {
            if (log.Begun is not { } begun)
            {
                yield return At(
                    log.Place, $"nobody says when `{log.Log.Name}` was taken: a survey counts for {MostDays} days",
                    $"write `taken` into the manifest's `survey`, or ask with `--started \"YYYY-MM-DD HH:MM\"`");
            }
            else if (survey.Today is { } today && (today.Date - begun.Date).Days is > MostDays and var days)
            {
                yield return At(
                    log.Entry?.Value.Taken?.Place ?? log.Place, $"`{log.Log.Name}` was taken {days} days ago, {days - MostDays} more than a survey counts for",
                    $"repeat the survey: neighbours come, go and change their channels");
            }
        }
        // One node of a group speaks for all of them.
        var heard = new HashSet<string>(survey.Network.Nodes.Where(node => survey.Ranking.Places.Any(place => IsAt(node, place))).Select(node => node.Entry));
        var receivers = survey.Network.DistinctHops.Select(hop => hop.Receiver).Where(node => !node.IsExternal).DistinctBy(node => node.Entry).ToList();
        var unheard = receivers.FindAll(node => !heard.Contains(node.Entry));
        if (unheard.Count > 0)
        {
            yield return At(
                survey.Logs[0].Place,
                $"nobody listened at {string.Join(", ", unheard.Select(node => $"`{node.Label}`"))}: {Surveyed(survey.Ranking.Places.Length)}, and {Receiving(receivers.Count)}",
                $"listen at each of them, and name the node as the log's `place`: what ruins a packet is what its receiver hears");
        }
    }

    private static bool IsAt(Node node, string place) => place == node.Name || place == node.Entry || place == node.PlaceText?.Value;

    private static string Surveyed(int places) => FormattableString.Invariant($"{places} {(places == 1 ? "place was" : "places were")} surveyed");

    private static string Receiving(int nodes) => FormattableString.Invariant($"{nodes} {(nodes == 1 ? "node receives" : "kinds of node receive")}");
}
