using System.Globalization;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>A report line whose check value is right, taken apart: `rl1 KIND NODE FIELD... *CC`.</summary>
/// <param name="Kind">The first word after the mark.</param>
/// <param name="Node">The node that it comes from.</param>
/// <param name="Fields">The words after the node.</param>
/// <param name="Place">The report, without what stands round it on its line.</param>
public sealed record ReportText(string Kind, string Node, IReadOnlyList<ReportWord> Fields, Place Place)
{
    private const string Start = "rl1 ";
    private const int Longest = 120;
    private const int FewestWords = 4;

    private static readonly byte[] Checks = StepsOfCheck();

    /// <summary>Every report of a line; a line that was cut may go straight on with the next one. Null and a reason for one that is garbled.</summary>
    public static IEnumerable<(ReportText? Report, Place Place, string Fault)> In(SourceText line)
    {
        for (var at = StartIn(line.Text, 0); at >= 0;)
        {
            var next = StartIn(line.Text, at + 1);
            var text = line.Text.Substring(at, (next < 0 ? line.Text.Length : next) - at);
            var place = new Place(line, at, text.TrimEnd().Length);
            var fault = FaultIn(text);
            yield return (fault.Length > 0 ? null : Parse(line, at, text.IndexOf(" *", StringComparison.Ordinal)), place, fault);
            at = next;
        }
    }

    /// <summary>True when a report begins in a line.</summary>
    public static bool IsIn(string line) => StartIn(line, 0) >= 0;

    /// <summary>CRC-8 with polynomial 0x07 and start 0xFF, most significant bit first, over ASCII.</summary>
    public static byte CheckOf(string text)
    {
        var check = 0xFF;
        foreach (var one in text)
            check = Checks[check ^ (one & 0xFF)];
        return (byte)check;
    }

    // One step of the check for each byte, as a log of 100 MB has many.
    private static byte[] StepsOfCheck()
    {
        var steps = new byte[256];
        for (var one = 0; one < steps.Length; one++)
        {
            var check = one;
            for (var bit = 0; bit < 8; bit++)
                check = (check & 0x80) == 0 ? (check << 1) & 0xFF : ((check << 1) & 0xFF) ^ 0x07;
            steps[one] = (byte)check;
        }
        return steps;
    }

    private static int StartIn(string line, int from)
    {
        for (var at = line.IndexOf(Start, from, StringComparison.Ordinal); at >= 0; at = line.IndexOf(Start, at + 1, StringComparison.Ordinal))
        {
            // Not the end of a longer word.
            if (at == 0 || !(line[at - 1] == '-' || char.IsLetterOrDigit(line[at - 1])))
                return at;
        }
        return -1;
    }

    private static string FaultIn(string text)
    {
        var end = text.IndexOf(" *", StringComparison.Ordinal);
        if (end < 0 || text.Length < end + 4)
            return "its end is missing";
        var said = text.Substring(end + 2, 2);
        var computed = CheckOf(text.Substring(0, end)).ToString("X2", CultureInfo.InvariantCulture);
        if (end + 4 > Longest)
            return FormattableString.Invariant($"it is longer than {Longest} characters");
        if (!IsPlain(text, end) || said != computed)
            return $"its check value should be {computed}";
        return text.Substring(0, end).Split(' ') is { Length: >= FewestWords } words && words.All(word => word.Length > 0) ? "" : "it lacks a word";
    }

    private static bool IsPlain(string text, int end)
    {
        for (var at = 0; at < end; at++)
        {
            if (text[at] is < ' ' or > '~')
                return false;
        }
        return true;
    }

    private static ReportText Parse(SourceText line, int at, int length)
    {
        var words = new List<ReportWord>();
        for (var from = at; from < at + length;)
        {
            var blank = line.Text.IndexOf(' ', from, at + length - from);
            var to = blank < 0 ? at + length : blank;
            words.Add(new(line.Text.Substring(from, to - from), new(line, from, to - from)));
            from = to + 1;
        }
        return new(words[1].Text, words[2].Text, words.GetRange(3, words.Count - 3), new(line, at, length + 4));
    }
}

/// <summary>A word of a report.</summary>
public sealed record ReportWord(string Text, Place Place);
