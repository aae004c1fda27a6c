namespace RadioLint.Text;

/// <summary>Finds what was probably meant.</summary>
public static class Nearest
{
    /// <summary>The known word with the fewest edits to the written one, if few enough to be a slip; the first of equals.</summary>
    public static string? To(string written, IEnumerable<string> known) => AllTo(written, known) is { Count: > 0 } near ? near[0] : null;

    /// <summary>All known words that are as near, in the order in which they are known; empty when none is near enough.</summary>
    public static IReadOnlyList<string> AllTo(string written, IEnumerable<string> known)
    {
        var best = new List<string>();
        var fewest = Math.Max(written.Length, 3) / 3;
        foreach (var word in known)
        {
            var edits = Edits(written.ToLowerInvariant(), word.ToLowerInvariant(), fewest + 1);
            if (edits > fewest)
                continue;
            if (edits < fewest)
                best.Clear();
            fewest = edits;
            best.Add(word);
        }
        return best;
    }

    // Optimal string alignment: insertions, deletions, substitutions and swaps of neighbours, given up at the limit.
    private static int Edits(string a, string b, int limit)
    {
        if (Math.Abs(a.Length - b.Length) >= limit || a.Length > 64 || b.Length > 64)
            return limit;
        var rows = new int[3][] { new int[b.Length + 1], new int[b.Length + 1], new int[b.Length + 1] };
        for (var j = 0; j <= b.Length; j++)
            rows[0][j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            var (row, above, twoAbove) = (rows[i % 3], rows[(i + 2) % 3], rows[(i + 1) % 3]);
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var same = a[i - 1] == b[j - 1] ? 0 : 1;
                row[j] = Math.Min(Math.Min(row[j - 1] + 1, above[j] + 1), above[j - 1] + same);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    row[j] = Math.Min(row[j], twoAbove[j - 2] + 1);
            }
        }
        return rows[a.Length % 3][b.Length];
    }
}
