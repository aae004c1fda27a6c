using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What lines that begin with `#` say of a log: `# place: shed`, `# started: 2026-05-02 18:30`, `# dwell: 200 us`. Any others are for people.</summary>
internal sealed class LogRemarks
{
    public string? Where { get; private set; }
    public DateTime? Started { get; private set; }
    public (Duration Time, Place Place)? Dwell { get; private set; }

    public void Take(SourceText line)
    {
        var text = line.Text.TrimStart(' ', '\t', '#').TrimEnd();
        var colon = text.IndexOf(':');
        if (colon < 0)
            return;
        var value = text.Substring(colon + 1).Trim();
        switch (text.Substring(0, colon))
        {
            case "place" when value.Length is > 0 and <= SurveyLimits.LongestPlace:
                Where ??= value;
                break;
            case "started":
                var clock = new LogClock();
                if (clock.TryTake(value, 0, value.Length))
                    Started ??= clock.Begun;
                break;
            case "dwell" when Quantity.TrySplit(value, out var number, out var unit) && unit is "us" or "ms" && number is > 0 and < 10_000_000:
                Dwell ??= (new((long)(number * (unit == "us" ? 1_000 : 1_000_000))), new(line, line.Text.LastIndexOf(value, StringComparison.Ordinal), value.Length));
                break;
        }
    }
}
