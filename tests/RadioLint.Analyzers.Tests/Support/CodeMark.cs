using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>
/// What an example says about itself. Under the judged line stands a comment: `//   ~~~~ RL9004 message`, the tildes exactly under the span; or, where
/// the span begins in the first three columns or is empty, `// @COLUMN+LENGTH RL9004 message`. In YAML `#` takes the place of `//`. A message that ends
/// with ` ...` is the beginning of one.
/// </summary>
public sealed partial record CodeMark(int Line, int Column, int Length, string Id, string Message)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Line}:{Column}+{Length} {Id} {Message}");

    /// <summary>A diagnostic as a mark would say it. A span of several lines counts up to the end of its first.</summary>
    /// <param name="one">The diagnostic.</param>
    /// <param name="text">The example's lines.</param>
    /// <param name="before">How many lines stand before the example in its file.</param>
    public static CodeMark Of(Diagnostic one, string[] text, int before)
    {
        var (from, to) = (one.Location.GetLineSpan().StartLinePosition, one.Location.GetLineSpan().EndLinePosition);
        var length = from.Line == to.Line ? to.Character - from.Character : text[from.Line - before].Length - from.Character;
        return new(from.Line - before + 1, from.Character + 1, length, one.Id, one.GetMessage(CultureInfo.InvariantCulture));
    }

    /// <summary>All marks of a text, in the order of their places.</summary>
    public static IReadOnlyList<CodeMark> ReadAll(string text)
    {
        var marks = new List<CodeMark>();
        var judged = 0;
        var lines = text.Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (Under().Match(lines[i]) is { Success: true } under)
                marks.Add(new(judged, under.Groups["span"].Index + 1, under.Groups["span"].Length, under.Groups["id"].Value, under.Groups["message"].Value));
            else if (At().Match(lines[i]) is { Success: true } at)
                marks.Add(new(judged, Number(at, "column"), Number(at, "length"), at.Groups["id"].Value, at.Groups["message"].Value));
            else
                judged = i + 1;
        }
        return [.. marks.OrderBy(mark => mark.Line).ThenBy(mark => mark.Column).ThenBy(mark => mark.Id, StringComparer.Ordinal)];
    }

    /// <summary>Whether a found mark is this one.</summary>
    public bool Says(CodeMark found) => this == found
        || (Message.EndsWith(" ...", StringComparison.Ordinal) && found.Message.StartsWith(Message[..^3], StringComparison.Ordinal) && this == found with { Message = Message });

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("^ *(?://|#) *(?<span>~+) (?<id>RL[0-9]{4}) (?<message>.+)$")]
    private static partial Regex Under();

    [GeneratedRegex("^ *(?://|#) @(?<column>[0-9]+)\\+(?<length>[0-9]+) (?<id>RL[0-9]{4}) (?<message>.+)$")]
    private static partial Regex At();
}
