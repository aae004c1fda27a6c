using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace RadioLint.Tests;

/// <summary>One line of a table of published figures.</summary>
internal sealed class PublishedRow(IReadOnlyDictionary<string, string> cells)
{
    public string this[string column] => cells[column];

    /// <summary>The parts of a cell between semicolons, such as those of a condition.</summary>
    public string[] Split(string column) => this[column].Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    public bool Says(string column, string part) => Split(column).Contains(part, StringComparer.Ordinal);

    /// <summary>All numbers in a cell, in its order.</summary>
    public decimal[] Numbers(string column) => Published.Numbers(this[column]);

    public decimal Number(string column) => Numbers(column).Single();

    /// <summary>The value of `name=value` in a cell of inputs.</summary>
    public string Input(string name) => Split("inputs").Single(part => part.StartsWith(name + "=", StringComparison.Ordinal))[(name.Length + 1)..];

    public override string ToString() => string.Join(", ", cells.Values);
}

/// <summary>Published figures, copied with their sources to facts/*.csv; the documents are listed in radio-sources.csv.</summary>
internal static partial class Published
{
    public static IReadOnlyList<PublishedRow> Rows(string file)
    {
        var lines = Cells(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "facts", file))).ToList();
        return [.. lines.Skip(1).Select(line => new PublishedRow(lines[0].Zip(line).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal)))];
    }

    public static PublishedRow Example(string file, string id) => Rows(file).Single(row => row["id"] == id);

    public static decimal[] Numbers(string text) =>
        [.. NumberPattern().Matches(text).Select(match => decimal.Parse(match.Value, NumberStyles.Number, CultureInfo.InvariantCulture))];

    // A minus after a letter or digit is a sign of subtraction or a hyphen.
    [GeneratedRegex(@"(?<![A-Za-z0-9])-?[0-9]+([.][0-9]+)?|(?<=[A-Za-z]-)[0-9]+([.][0-9]+)?")]
    private static partial Regex NumberPattern();

    // RFC 4180.
    private static IEnumerable<List<string>> Cells(string text)
    {
        var line = new List<string>();
        var cell = new StringBuilder();
        var isQuoted = false;
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (c == '"' && isQuoted && i + 1 < text.Length && text[i + 1] == '"')
                cell.Append(text[++i]);
            else if (c == '"')
                isQuoted = !isQuoted;
            else if (isQuoted || c is not (',' or '\n' or '\r'))
                cell.Append(c);
            else if (c is ',' or '\n')
            {
                line.Add(cell.ToString());
                cell.Clear();
                if (c == ',')
                    continue;
                yield return line;
                line = [];
            }
        }
    }
}
