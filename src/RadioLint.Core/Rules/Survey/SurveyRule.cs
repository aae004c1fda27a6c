using RadioLint.Findings;
using RadioLint.Survey;
using RadioLint.Text;

namespace RadioLint.Rules.Survey;

/// <summary>One thing that can be wrong with a survey, or that it shows. A rule looks at logs, ranking and network, and at no other rule.</summary>
public abstract class SurveyRule(Descriptor descriptor)
{
    public Descriptor Descriptor { get; } = descriptor;

    /// <summary>Everything of this kind that is wrong.</summary>
    public abstract IEnumerable<Finding> Check(SurveyEvidence survey);

    /// <summary>A finding in a log or in the manifest.</summary>
    protected Finding At(Place place, FormattableString message, FormattableString help) =>
        new(Descriptor, place, FormattableString.Invariant(message), FormattableString.Invariant(help));

    /// <summary>Where the network's channel is stated; its `air` while none is.</summary>
    protected static Place ChannelPlace(SurveyEvidence survey) => survey.Network.Air.Channel?.Place ?? survey.Network.Air.Place.FirstLine;
}
