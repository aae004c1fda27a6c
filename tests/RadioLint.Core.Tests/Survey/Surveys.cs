using System.Globalization;
using RadioLint.Readback;
using RadioLint.Survey;

namespace RadioLint.Tests.Survey;

/// <summary>Logs as text, and what comes out of them in words.</summary>
internal static class Surveys
{
    /// <summary>Reads a log in pieces of so many characters.</summary>
    public static (SurveyLog Log, List<Sweep> Sweeps) Read(string text, SurveyTerms? terms = null, int piece = 4096)
    {
        var sweeps = new List<Sweep>();
        var reader = new SurveyLogReader("log", terms ?? new(), sweeps.Add);
        var splitter = new LineSplitter(SurveyLimits.LongestLine);
        for (var at = 0; at < text.Length; at += piece)
        {
            var characters = text.Substring(at, Math.Min(piece, text.Length - at)).ToCharArray();
            foreach (var line in splitter.Add(characters, characters.Length))
                reader.Add(line);
        }
        if (splitter.End() is { } last)
            reader.Add(last);
        return (reader.End(), sweeps);
    }

    /// <summary>`shed 3 at 2500 ms: 2 5/100, 7 0/100`: place, number, time, channels with what was heard out of how many.</summary>
    public static string Said(Sweep sweep)
    {
        var channels = Enumerable.Range(0, Sweep.Channels).Where(channel => sweep.Samples[channel] > 0)
            .Select(channel => FormattableString.Invariant($"{channel} {sweep.Heard[channel]}/{sweep.Samples[channel]}"));
        var at = sweep.At is { } time ? FormattableString.Invariant($" at {time.Nanoseconds / 1_000_000} ms") : "";
        return FormattableString.Invariant($"{sweep.Where} {sweep.Number}{at}: {string.Join(", ", channels)}");
    }

    public static List<string> Said(string text, SurveyTerms? terms = null) => Read(text, terms).Sweeps.ConvertAll(Said);

    /// <summary>A report with its check value.</summary>
    public static string Report(string text) => $"{text} *{ReportText.CheckOf(text):X2}";

    /// <summary>A sweep as the survey program prints it: as many lines as 120 characters demand.</summary>
    public static string Reports(string node, int number, Func<int, int> hits, int dwell = 200)
    {
        var lines = new List<string>();
        for (var channel = 0; channel < Sweep.Channels;)
        {
            var line = string.Create(CultureInfo.InvariantCulture, $"rl1 sweep {node} {number} {dwell} {channel}");
            while (channel < Sweep.Channels && line.Length + 8 <= 120)
                line += string.Create(CultureInfo.InvariantCulture, $" {hits(channel++)}");
            lines.Add(Report(line));
        }
        return string.Join("\r\n", lines) + "\r\n";
    }
}
