using Microsoft.VisualBasic.FileIO;

namespace RadioLint.Tests.Support;

/// <summary>A table of published figures: the tests' own copy, each row with its source.</summary>
public static class FactTable
{
    /// <summary>Rows as maps from column to text.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(string file)
    {
        using var parser = new TextFieldParser(Path.Combine(Fixtures.Root, "tests", "RadioLint.Core.Tests", "facts", file))
        {
            TextFieldType = FieldType.Delimited,
            Delimiters = [","],
            HasFieldsEnclosedInQuotes = true,
        };
        var header = parser.ReadFields()!;
        var rows = new List<IReadOnlyDictionary<string, string>>();
        while (parser.ReadFields() is { } fields)
            rows.Add(header.Zip(fields).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal));
        return rows;
    }
}
