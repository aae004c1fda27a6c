namespace RadioLint.Cli.Terminal;

/// <summary>Breaks text into lines between words.</summary>
internal static class Layout
{
    /// <summary>The widest that text of ours is set, however wide the terminal.</summary>
    public const int Columns = 80;

    /// <summary>Lines of at most <paramref name="width"/> columns, indents included; a longer word stands alone.</summary>
    public static IEnumerable<string> Wrap(string text, int width, string first = "", string others = "")
    {
        var line = first;
        var isEmpty = true;
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            if (!isEmpty && Printable.Width(line) + 1 + Printable.Width(word) > width)
            {
                yield return line;
                line = others;
                isEmpty = true;
            }
            line += isEmpty ? word : " " + word;
            isEmpty = false;
        }
        yield return line;
    }
}
