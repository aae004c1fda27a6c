using System.Runtime.CompilerServices;
using System.Text;

namespace RadioLint.Tests.Simulation.Support;

/// <summary>A table of facts/: published figures with their sources. D1 = nRF24L01+ Product Specification 1.0, D2 = nRF24L01 2.0, D7 = Si24R1.</summary>
internal static class FactTable
{
    /// <summary>Rows by column name.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(string file)
    {
        var lines = File.ReadAllLines(Path.Combine(Folder(), "..", "facts", file));
        var names = Split(lines[0]);
        return [.. lines.Skip(1).Where(line => line.Length > 0).Select(line =>
        {
            var cells = Split(line);
            Assert.Equal(names.Count, cells.Count);
            return names.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal);
        })];
    }

    /// <summary>`a=1; b=2` as names and values.</summary>
    public static IReadOnlyDictionary<string, string> Inputs(string text) => text.Split("; ").Select(part => part.Split('=', 2))
        .Where(part => part.Length == 2).ToDictionary(part => part[0].Trim(), part => part[1].Trim(), StringComparer.Ordinal);

    private static List<string> Split(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var isQuoted = false;
        foreach (var each in line)
        {
            if (each == '"')
            {
                isQuoted = !isQuoted;
            }
            else if (each == ',' && !isQuoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(each);
            }
        }
        cells.Add(cell.ToString());
        return cells;
    }

    private static string Folder([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
