namespace RadioLint.Survey;

/// <summary>Logs of one site, read one after the other and put together place by place.</summary>
public sealed class SurveyGathering
{
    private readonly SortedDictionary<string, BandObservation> places = new(StringComparer.Ordinal);

    /// <summary>What was heard, in the ordinal order of the places.</summary>
    public IReadOnlyList<BandObservation> Places => [.. places.Values];

    /// <summary>A reader whose sweeps join what is there.</summary>
    public SurveyLogReader Open(string name, SurveyTerms terms) => new(name, terms, Add);

    private void Add(Sweep sweep)
    {
        if (!places.TryGetValue(sweep.Where!, out var place))
            places.Add(sweep.Where!, place = new(sweep.Where!));
        place.Add(sweep);
    }
}
