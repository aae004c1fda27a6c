using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Rules.Survey;

/// <summary>RL3302: the detector had no time to detect anything.</summary>
public sealed class DwellTooShort() : SurveyRule(new(
    "RL3302", Severity.Error, "Survey dwell too short to be valid",
    "settling and detector: 130 us + 40 us = 170 us (nRF24L01+ Product Specification 1.0, 6.4 p25, Table 16 p24); 130 us + 128 us = 258 us on the earlier part (nRF24L01 Product Specification 2.0, Appendix E p74)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(SurveyEvidence survey)
    {
        foreach (var log in survey.Logs)
        {
            // Levels come from other instruments than a radio's detector.
            if (log.Log.Form is SurveyForm.Levels || log.Dwell is not { } dwell || PartOf(survey, log) is not { } part || Needed(part) <= dwell.Time)
                continue;
            yield return At(
                dwell.Place,
                $"each channel was listened to for {dwell.Time}, {Needed(part) - dwell.Time} less than the {Needed(part)} after which {part.Detector.Name} of {part.Name} is valid, so nothing that it counted is",
                $"listen for {Needed(part)} or longer each time, as the emitted survey program does, and survey anew");
        }
    }

    private static Duration Needed(RadioPart part) => part.Timing.Settle.Value + part.Timing.Detector.Value;

    // That of the node that listened; where the log does not tell, the one that needs least, so that nobody is blamed for another's part.
    private static RadioPart? PartOf(SurveyEvidence survey, HeardLog log) =>
        survey.Network.Nodes.Where(node => log.Log.Places.Contains(node.Name, StringComparer.Ordinal)).Select(node => node.Part).FirstOrDefault(part => part is not null)
        ?? survey.Network.DistinctNodes.Select(node => node.Part).Where(part => part is not null).OrderBy(part => Needed(part!)).FirstOrDefault();
}
