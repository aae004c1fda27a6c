using System.Collections.Immutable;
using RadioLint.Cli.Files;
using RadioLint.Cli.Survey;
using RadioLint.Cli.Terminal;
using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Survey;

namespace RadioLint.Cli.Fill;

/// <summary>What surveys tell of the channels: those of the command line, else those that the manifest names.</summary>
internal static class MeasuredChannels
{
    /// <summary>Null where nothing was measured.</summary>
    /// <param name="given">The logs of the command line.</param>
    /// <exception cref="CannotWorkException">A log of the command line cannot be read, or holds no sweep. One that the manifest names may be elsewhere: that is noted.</exception>
    public static ChannelCosts? Of(ManifestFile file, Network network, IReadOnlyList<string> given, Surroundings around)
    {
        if (given.Count == 0 && network.Survey.IsEmpty)
            return null;
        var gathering = new SurveyGathering();
        var terms = new SurveyTerms { Threshold = SurveySources.ThresholdOf([network]) ?? new SurveyTerms().Threshold };
        try
        {
            foreach (var source in SurveySources.Find(given, [(file, network)], around))
            {
                if (SurveySources.Read(source, terms, gathering, around).Log.Sweeps == 0)
                    throw new CannotWorkException($"no sweep is in `{source.Name}`", "see docs/survey.md for the forms that are read");
            }
        }
        catch (CannotWorkException fault) when (given.Count == 0)
        {
            around.Note($"{fault.Message}; channels are chosen without it");
            return null;
        }
        var ranking = SurveyJudgement.Rank(network, gathering.Places);
        return new(ImmutableArray.CreateRange(ranking.Channels, channel => channel.Samples > 0 ? channel.Busy : (Units.Share?)null));
    }
}
