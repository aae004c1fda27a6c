namespace RadioLint.Manifest;

/// <summary>Keys and words of the format come again and again; kept once each, a large file needs half the memory.</summary>
internal sealed class WordStore
{
    private const int MostWords = 10_000;
    private const int LongestWord = 24;
    private readonly Dictionary<string, string> words = new(StringComparer.Ordinal);

    /// <summary>An equal text, the same object each time.</summary>
    public string Once(string text)
    {
        if (text.Length > LongestWord)
            return text;
        if (words.TryGetValue(text, out var known))
            return known;
        if (words.Count < MostWords)
            words.Add(text, text);
        return text;
    }
}
