using System.Text;

namespace Proof;

/// <summary>The data sheets' tables, as files of values with their places; a line is one row, a field with commas stands in quotes.</summary>
internal static class Facts
{
    public static IEnumerable<Dictionary<string, string>> Rows(string file)
    {
        using var stream = typeof(Facts).Assembly.GetManifestResourceStream(file) ?? throw new InvalidOperationException($"{file} is not there");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var names = Cut(reader.ReadLine()!);
        var rows = new List<Dictionary<string, string>>();
        while (reader.ReadLine() is { } line)
            rows.Add(names.Zip(Cut(line)).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal));
        return rows;
    }

    private static List<string> Cut(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        var isQuoted = false;
        foreach (var c in line)
        {
            if (c == '"')
            {
                isQuoted = !isQuoted;
            }
            else if (c == ',' && !isQuoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(c);
            }
        }
        fields.Add(field.ToString());
        return fields;
    }
}
