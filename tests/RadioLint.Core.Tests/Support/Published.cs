using System.Globalization;
using System.Text.RegularExpressions;

namespace RadioLint.Tests.Support;

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
    public static IReadOnlyList<PublishedRow> Rows(string file) => [.. FactTable.Read(file).Select(cells => new PublishedRow(cells))];

    public static PublishedRow Example(string file, string id) => Rows(file).Single(row => row["id"] == id);

    public static decimal[] Numbers(string text) =>
        [.. NumberPattern().Matches(text).Select(match => decimal.Parse(match.Value, NumberStyles.Number, CultureInfo.InvariantCulture))];

    // A minus after a letter or digit is a sign of subtraction or a hyphen.
    [GeneratedRegex(@"(?<![A-Za-z0-9])-?[0-9]+([.][0-9]+)?|(?<=[A-Za-z]-)[0-9]+([.][0-9]+)?")]
    private static partial Regex NumberPattern();
}
