using System.Globalization;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What a column of a table holds.</summary>
internal enum ColumnKind
{
    /// <summary>Nothing that is understood: it is passed over.</summary>
    Other,

    Time,
    Frequency,
    Channel,
    Level,
    Heard,
    Samples,
    Place,
    Sweep,
    Dwell,

    /// <summary>What was heard on one channel or frequency, which the name says.</summary>
    Cell,
}

/// <summary>A column by its name. docs/survey.md lists what is understood.</summary>
/// <param name="Unit">Of frequencies, times and dwell; empty where the name says none.</param>
/// <param name="Number">The frequency or channel of a cell, as written.</param>
internal readonly record struct ColumnName(ColumnKind Kind, string Unit, string Number, bool IsChannel)
{
    private const int LongestName = 60;

    public static ColumnName Of(string name)
    {
        if (name.Length > LongestName)
            return new(ColumnKind.Other, "", "", false);
        var words = Words(name);
        var unit = words.FirstOrDefault(word => word is "hz" or "khz" or "mhz" or "ghz" or "s" or "ms" or "us" or "seconds" or "sec") ?? "";
        var numbers = words.FindAll(word => word[0] is >= '0' and <= '9');
        if (numbers.Count == 1 && words.TrueForAll(word => word == numbers[0] || IsOfCell(word)))
            return new(ColumnKind.Cell, unit, numbers[0], words.Exists(word => word is "channel" or "chan" or "ch"));
        var kind = words.Select(KindOf).FirstOrDefault(each => each != ColumnKind.Other);
        // `s` alone, as in `t (s)`, is no more than a unit.
        return new(kind, unit, "", false);
    }

    /// <summary>Decimals that make a whole number of nanoseconds of a number in the column's unit of time.</summary>
    public int TimeDecimals => Unit switch { "ms" => 6, "us" => 3, _ => 9 };

    /// <summary>A frequency in the column's unit, or by its size where the name says none. False where it is no number.</summary>
    public bool TryFrequency(string text, int from, int to, out Frequency frequency)
    {
        frequency = default;
        if (!Decimals.TryRead(text, from, to, 9, out var billionths) || billionths < 0)
            return false;
        // A number of gigahertz has one digit before the point, of megahertz four, and so on.
        var hertz = Unit switch
        {
            "hz" => billionths / 1_000_000_000,
            "khz" => billionths / 1_000_000,
            "mhz" => billionths / 1_000,
            "ghz" => billionths,
            _ => billionths switch
            {
                >= 1_000_000_000_000_000_000 => billionths / 1_000_000_000,
                >= 1_000_000_000_000_000 => billionths / 1_000_000,
                >= 1_000_000_000_000 => billionths / 1_000,
                _ => billionths,
            },
        };
        frequency = new(hertz);
        return true;
    }

    private static bool IsOfCell(string word) =>
        word is "channel" or "chan" or "ch" or "frequency" or "freq" or "f" or "hz" or "khz" or "mhz" or "ghz" or "dbm" or "level" or "heard" or "hits";

    private static ColumnKind KindOf(string word) => word switch
    {
        "time" or "timestamp" or "datetime" or "elapsed" or "seconds" or "t" => ColumnKind.Time,
        "frequency" or "freq" or "carrier" or "hz" or "khz" or "mhz" or "ghz" => ColumnKind.Frequency,
        "channel" or "chan" or "ch" => ColumnKind.Channel,
        "level" or "power" or "rssi" or "signal" or "strength" or "dbm" => ColumnKind.Level,
        "heard" or "hits" or "count" or "counts" or "busy" or "occupied" => ColumnKind.Heard,
        "samples" or "rounds" or "total" => ColumnKind.Samples,
        "place" or "node" or "site" or "location" or "receiver" or "station" => ColumnKind.Place,
        "sweep" or "scan" or "pass" => ColumnKind.Sweep,
        "dwell" => ColumnKind.Dwell,
        _ => ColumnKind.Other,
    };

    // Letters together and digits together, whatever stands between: `Frequency (MHz)`, `level_dbm`, `ch12`, `2402.5MHz`.
    private static List<string> Words(string name)
    {
        var words = new List<string>();
        var lower = name.ToLower(CultureInfo.InvariantCulture);
        for (var at = 0; at < lower.Length;)
        {
            var from = at;
            if (IsDigit(lower[at]))
            {
                while (at < lower.Length && (IsDigit(lower[at]) || (lower[at] is '.' or 'e' or '+' && at + 1 < lower.Length && IsDigit(lower[at + 1]))))
                    at++;
            }
            else
            {
                while (at < lower.Length && lower[at] is >= 'a' and <= 'z')
                    at++;
            }
            if (at > from)
                words.Add(lower.Substring(from, at - from));
            else
                at++;
        }
        return words;
    }

    private static bool IsDigit(char c) => c is >= '0' and <= '9';
}
