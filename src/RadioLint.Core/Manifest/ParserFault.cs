using RadioLint.Text;
using YamlDotNet.Core;

namespace RadioLint.Manifest;

/// <summary>What the event parser could not read, in words for the person who wrote it.</summary>
internal static class ParserFault
{
    // A part of the parser's message, and what it means here.
    private static readonly (string Part, string Meaning)[] Meanings =
    [
        ("',' or '}'", "a comma or the closing `}` is missing before this"),
        ("',' or ']'", "a comma or the closing `]` is missing before this"),
        ("found invalid mapping", "this colon belongs to no key: the line before lacks its colon, or the value must stand between quotes"),
        ("a block mapping, did not find expected key", "a key is expected here: the line is indented otherwise than the keys above, or a colon is missing"),
        ("did not find expected '-'", "a `-` is expected here: the line is indented otherwise than the entries above"),
        ("could not find expected ':'", "a colon is missing after this key"),
        ("double-quoted scalar, found wrong indentation", "the quote that opens here is not closed, or its next line is not indented"),
        ("a quoted scalar, found unexpected", "the quote that opens here is not closed"),
        ("unknown escape character", "an escape in this text is not one of YAML's"),
        ("hexadecimal number", "an escape in this text is not one of YAML's"),
        ("Unicode", "an escape in this text is not one of YAML's"),
        ("did not find expected node content", "a value is expected here"),
        ("DOCUMENT-START", "more text stands here after the end of the manifest"),
        ("<document start>", "more text stands here after the end of the manifest"),
    ];

    /// <summary>The place and the sentence.</summary>
    public static (int Start, string Sentence) Of(YamlException fault, SourceText source)
    {
        var start = (int)Math.Min(fault.Start.Index, source.Text.Length);
        var text = fault.Message;
        if (text.Contains(" tab ") && IndentingTab(source.Text, start) is { } tab)
            return (tab, "a tab indents this line; YAML is indented with blanks");
        if (text.Contains("cannot start any token") && start < source.Text.Length)
            return (start, $"`{source.Text[start]}` cannot begin a value; put the value between quotes if it is meant");
        foreach (var (part, meaning) in Meanings)
        {
            if (text.Contains(part))
                return (start, meaning);
        }
        return (start, Plain(text));
    }

    // The parser's own words, without its position and in our voice.
    private static string Plain(string text)
    {
        var afterPosition = text.LastIndexOf("): ", StringComparison.Ordinal);
        if (afterPosition >= 0)
            text = text.Substring(afterPosition + 3);
        text = text.Trim().TrimEnd('.');
        return text.Length == 0 ? "the text cannot be read here" : char.ToLowerInvariant(text[0]) + text.Substring(1);
    }

    // The parser names the place where the map begins, not that of the tab.
    private static int? IndentingTab(string text, int from)
    {
        var isIndent = from == 0 || text[from - 1] is '\n' or '\r';
        for (var i = from; i < text.Length; i++)
        {
            if (text[i] is '\n' or '\r')
                isIndent = true;
            else if (isIndent && text[i] == '\t' && !IsBlankLine(text, i))
                return i;
            else if (text[i] != ' ')
                isIndent = false;
        }
        return null;
    }

    private static bool IsBlankLine(string text, int at)
    {
        while (at < text.Length && text[at] is ' ' or '\t')
            at++;
        return at == text.Length || text[at] is '\n' or '\r';
    }
}
