using System.Text;

namespace RadioLint.Text;

/// <summary>Sentences of profiles and data sheets as parts of a sentence of our own.</summary>
public static class Clause
{
    /// <summary>Full stops between sentences as semicolons, none at the end, and words small that are large only because they begin a sentence.</summary>
    public static string Of(string text)
    {
        var clause = new StringBuilder(text.TrimEnd('.', ' '));
        var begins = true;
        for (var i = 0; i < clause.Length; i++)
        {
            if (begins && IsLargeByPlace(clause, i))
                clause[i] = char.ToLowerInvariant(clause[i]);
            begins = begins && clause[i] == ' ';
            if (clause[i] == '.' && i + 2 < clause.Length && clause[i + 1] == ' ' && IsLargeByPlace(clause, i + 2))
                (clause[i], begins) = (';', true);
        }
        return clause.ToString();
    }

    // `Native`, `A 10 k`; not `MISO`, `JTAG`, `GPIO2`.
    private static bool IsLargeByPlace(StringBuilder text, int at) =>
        char.IsUpper(text[at]) && (at + 1 == text.Length || text[at + 1] == ' ' || char.IsLower(text[at + 1]));
}
