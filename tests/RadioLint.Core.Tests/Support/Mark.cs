using System.Globalization;
using System.Text.RegularExpressions;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Tests.Support;

/// <summary>
/// What a fixture says about itself. Under the judged line stands a comment: `#    ~~~~ RL3002 message`, the tildes exactly under the span;
/// or, where the span begins in the first two columns or is empty, `# @COLUMN+LENGTH RL3002 message`. `error`, `warning` or `info` may
/// stand before the ID where a rule's weight depends on the margin. A message that ends with ` ...` is the beginning of one.
/// JSON has no comments: beside `NAME.radio.json` stands `NAME.marks`, a line `LINE:COLUMN+LENGTH WEIGHT RL3002 message` for each finding.
/// </summary>
public sealed partial record Mark(int Line, int Column, int Length, string Weight, string Id, string Message)
{
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"{Line}:{Column}+{Length} {Weight} {Id} {Message}");

    /// <summary>A finding as a mark would say it. A span of several lines counts up to the end of its first.</summary>
    public static Mark Of(Finding finding)
    {
        var (from, to) = (finding.Place.From, finding.Place.To);
        var length = from.Line == to.Line ? finding.Place.Length : finding.Place.Source.Line(from.Line).Length - from.Column + 1;
        return new(from.Line, from.Column, length, Weigh(finding.Severity), finding.Rule.Id, finding.Message);
    }

    /// <summary>The found marks, each said as the expected one at its position where that is its beginning.</summary>
    public static IEnumerable<string> Against(IReadOnlyList<Mark> expected, IEnumerable<Mark> found) =>
        found.Select((mark, i) => i < expected.Count && expected[i].Begins(mark) ? expected[i].ToString() : mark.ToString());

    /// <summary>The marks of a file beside a fixture that cannot carry comments.</summary>
    public static IReadOnlyList<Mark> ReadBeside(string text) =>
    [
        .. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => Beside().Match(line) is { Success: true } match
            ? From(match, Number(match, "line"), Number(match, "column"), Number(match, "length"))
            : throw new FormatException($"this line is no mark: {line}")),
    ];

    /// <summary>All marks of a text, in the order of their places.</summary>
    public static IReadOnlyList<Mark> ReadAll(string text)
    {
        var marks = new List<Mark>();
        var judged = 0;
        var lines = text.Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (Under().Match(lines[i]) is { Success: true } under)
                marks.Add(From(under, judged, under.Groups["span"].Index + 1, under.Groups["span"].Length));
            else if (At().Match(lines[i]) is { Success: true } at)
                marks.Add(From(at, judged, Number(at, "column"), Number(at, "length")));
            else
                judged = i + 1;
        }
        return [.. marks.OrderBy(mark => mark.Line).ThenBy(mark => mark.Column).ThenBy(mark => mark.Id, StringComparer.Ordinal).ThenBy(mark => mark.Message, StringComparer.Ordinal)];
    }

    /// <summary>
    /// A note on missing facts with those alone that a rule waits for: what others wait for besides changes with every rule that comes. Null when
    /// there is none; any other mark as it is.
    /// </summary>
    public Mark? WithFactsFor(string rule)
    {
        if (Id != "RL8304")
            return this;
        var facts = Fact().Matches(Message).Where(match => match.Groups["rules"].Value.Contains(rule, StringComparison.Ordinal)).Select(match => match.Groups["key"].Value).ToList();
        return facts.Count == 0 ? null : this with { Message = $"{Message[..Message.IndexOf(" does not state ", StringComparison.Ordinal)]} does not state {string.Join(", ", facts)}" };
    }

    private bool Begins(Mark found) =>
        Message.EndsWith(" ...", StringComparison.Ordinal) && found.Message.StartsWith(Message[..^3], StringComparison.Ordinal)
        && this == found with { Message = Message };

    private static Mark From(Match match, int line, int column, int length)
    {
        var id = match.Groups["id"].Value;
        var weight = match.Groups["weight"].Value;
        if (weight.Length == 0)
            weight = Weigh(RadioLint.Rules.Catalogue.Find(id)?.Severity ?? Severity.Silent);
        return new(line, column, length, weight, id, match.Groups["message"].Value.TrimEnd('\r'));
    }

    private static string Weigh(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        Severity.Info => "info",
        _ => "silent",
    };

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("^ *#[ ]*(?<span>~+) (?:(?<weight>error|warning|info) )?(?<id>RL[0-9]{4}) (?<message>.+)$")]
    private static partial Regex Under();

    [GeneratedRegex("^(?<line>[0-9]+):(?<column>[0-9]+)\\+(?<length>[0-9]+) (?<weight>error|warning|info) (?<id>RL[0-9]{4}) (?<message>.+)$")]
    private static partial Regex Beside();

    [GeneratedRegex("(?<key>`[^`]+`) \\((?<rules>[^)]*)\\)")]
    private static partial Regex Fact();

    [GeneratedRegex("^ *# @(?<column>[0-9]+)\\+(?<length>[0-9]+) (?:(?<weight>error|warning|info) )?(?<id>RL[0-9]{4}) (?<message>.+)$")]
    private static partial Regex At();
}
