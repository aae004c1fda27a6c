namespace RadioLint.Survey;

/// <summary>
/// Channels in a row that differ by no more than chance, averaged. Of many channels that are equally busy one always looks the quietest; averaged they
/// look as equal as they are, and one that really is quieter stands out.
/// </summary>
internal static class Plateaus
{
    /// <summary>
    /// What a further plateau must gain in log likelihood: about what the information criterion of Schwarz (1978; from memory) asks for the two figures
    /// that it adds, its height and where it begins, with 126 channels.
    /// </summary>
    private static readonly double Price = double.Parse(Environment.GetEnvironmentVariable("PRICE") ?? "4.8");

    // What differs by less may differ by the last bits of logarithms alone.
    private const double Same = 1e-9;

    /// <summary>The cut of the channels into plateaus that is the likeliest for its number of plateaus, found exactly; the share of each channel's plateau.</summary>
    /// <param name="heard">Times heard, each divided by what makes them depend on each other.</param>
    /// <param name="samples">The same of all samples.</param>
    public static double[] Of(double[] heard, double[] samples)
    {
        var count = heard.Length;
        var (sumHeard, sumSamples) = (new double[count + 1], new double[count + 1]);
        for (var i = 0; i < count; i++)
            (sumHeard[i + 1], sumSamples[i + 1]) = (sumHeard[i] + heard[i], sumSamples[i] + samples[i]);
        var (best, from) = (new double[count + 1], new int[count + 1]);
        for (var end = 1; end <= count; end++)
        {
            best[end] = double.NegativeInfinity;
            for (var start = 0; start < end; start++)
            {
                var value = best[start] + Likelihood(sumHeard[end] - sumHeard[start], sumSamples[end] - sumSamples[start]) - Price;
                if (value > best[end] + Same)
                    (best[end], from[end]) = (value, start);
            }
        }
        var shares = new double[count];
        for (var end = count; end > 0; end = from[end])
        {
            var (busy, all) = (sumHeard[end] - sumHeard[from[end]], sumSamples[end] - sumSamples[from[end]]);
            for (var i = from[end]; i < end; i++)
                shares[i] = all > 0 ? Math.Max(0, busy / all) : 0;
        }
        return shares;
    }

    // Of so many heard among so many samples, at the share that makes it the likeliest.
    private static double Likelihood(double heard, double samples)
    {
        if (samples <= 0 || heard <= Same || heard >= samples - Same)
            return 0;
        var share = heard / samples;
        return (heard * Math.Log(share)) + ((samples - heard) * Math.Log(1 - share));
    }
}
