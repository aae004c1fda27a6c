using System.Text;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;

namespace RadioLint.Cli.Output;

/// <summary>A rule's page for the terminal: headings, paragraphs and lists set anew, examples as they are.</summary>
internal static class RulePage
{
    private const string Fence = "```";
    private const string Indent = "  ";

    /// <summary>The page as it stands in docs/rules.</summary>
    public static string Read(Descriptor rule)
    {
        using var stream = typeof(Linter).Assembly.GetManifestResourceStream($"rules/{rule.Id}.md")
            ?? throw new InvalidOperationException($"{rule.Id} has no page");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    public static void Write(TextWriter output, string page, Paint paint, int width)
    {
        var paragraph = new StringBuilder();
        var isExample = false;
        foreach (var line in page.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n'))
        {
            if (isExample && !line.StartsWith(Fence, StringComparison.Ordinal))
            {
                output.WriteLine((Indent + Indent + line).TrimEnd());
                continue;
            }
            if (line.Length == 0 || line[0] is '#' or '|' || line.StartsWith(Fence, StringComparison.Ordinal) || IsItem(line))
                Flush(output, paragraph, width);
            if (line.StartsWith(Fence, StringComparison.Ordinal))
                isExample = !isExample;
            else if (line.Length == 0)
                output.WriteLine();
            else if (line[0] == '#')
                output.WriteLine(paint.Strong(Plain(line.TrimStart('#').Trim())));
            else if (line[0] == '|')
                output.WriteLine(Indent + line);
            else
                paragraph.Append(paragraph.Length == 0 ? "" : " ").Append(line.Trim());
        }
        Flush(output, paragraph, width);
    }

    private static void Flush(TextWriter output, StringBuilder paragraph, int width)
    {
        if (paragraph.Length == 0)
            return;
        var text = Plain(paragraph.ToString());
        paragraph.Clear();
        var hanging = IsItem(text) ? Indent + new string(' ', text.IndexOf(' ', StringComparison.Ordinal) + 1) : Indent;
        foreach (var line in Layout.Wrap(text, width, Indent, hanging))
            output.WriteLine(line);
    }

    private static bool IsItem(string line)
    {
        var text = line.TrimStart();
        var mark = text.IndexOf(' ', StringComparison.Ordinal);
        return mark > 0 && (text[..mark] is "-" or "*" || (text[mark - 1] == '.' && text[..(mark - 1)].All(char.IsAsciiDigit) && mark > 1));
    }

    // Backticks stay, as in messages; emphasis goes; a link becomes its words and its target in brackets.
    private static string Plain(string text)
    {
        var plain = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '`' && text.IndexOf('`', i + 1) is var closing and > 0)
            {
                plain.Append(text, i, closing - i + 1);
                i = closing;
            }
            else if (text[i] == '*' && i + 1 < text.Length && text[i + 1] == '*')
                i++;
            else if (text[i] == '[' && text.IndexOf("](", i, StringComparison.Ordinal) is var middle and > 0 && text.IndexOf(')', middle) is var end and > 0)
            {
                plain.Append(text, i + 1, middle - i - 1).Append(" (").Append(text, middle + 2, end - middle - 2).Append(')');
                i = end;
            }
            else
                plain.Append(text[i]);
        }
        return plain.ToString();
    }
}
