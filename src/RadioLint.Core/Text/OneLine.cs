using System.Text;

namespace RadioLint.Text;

/// <summary>Sentences that quote the user's text: one line, and no longer than a person reads.</summary>
public static class OneLine
{
    // A quoted text of this many characters still fits beside what is said of it.
    private const int LongestQuote = 80;

    /// <summary>The sentence with line ends and other control characters as blanks, and what stands between backticks cut to a readable length.</summary>
    public static string Of(string sentence)
    {
        if (sentence.Length <= LongestQuote && !sentence.Any(Breaks))
            return sentence;
        var text = new StringBuilder(Math.Min(sentence.Length, 1_000));
        var at = 0;
        while (at < sentence.Length)
        {
            var open = sentence.IndexOf('`', at);
            var close = open < 0 ? -1 : sentence.IndexOf('`', open + 1);
            if (close < 0)
                break;
            Append(text, sentence, at, open + 1 - at);
            Quote(text, sentence, open + 1, close - open - 1);
            text.Append('`');
            at = close + 1;
        }
        Append(text, sentence, at, sentence.Length - at);
        return text.ToString();
    }

    private static void Quote(StringBuilder text, string sentence, int start, int length)
    {
        if (length <= LongestQuote)
        {
            Append(text, sentence, start, length);
            return;
        }
        var kept = LongestQuote - 3;
        Append(text, sentence, start, char.IsHighSurrogate(sentence[start + kept - 1]) ? kept - 1 : kept);
        text.Append("...");
    }

    private static void Append(StringBuilder text, string sentence, int start, int length)
    {
        for (var i = start; i < start + length; i++)
            text.Append(Breaks(sentence[i]) ? ' ' : sentence[i]);
    }

    private static bool Breaks(char c) => char.IsControl(c) || c is '\u2028' or '\u2029';
}
