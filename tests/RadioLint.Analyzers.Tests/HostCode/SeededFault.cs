namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>One place of a correct program rewritten so that a rule must speak.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Program">The file below Programs.</param>
/// <param name="Text">The whole program with the fault in it.</param>
/// <param name="Start">Where the finding must begin.</param>
/// <param name="Length">And how far it must reach.</param>
public sealed record SeededFault(string Rule, string Program, string Text, int Start, int Length)
{
    private const char From = '«';
    private const char To = '»';

    /// <summary>Rewrites each occurrence of a text by itself: as many faults as there are occurrences.</summary>
    /// <param name="with">What stands there then; « » mark what must be found.</param>
    public static IEnumerable<SeededFault> Each(string rule, string program, string text, string with)
    {
        var correct = Programs.Read(program);
        var count = 0;
        for (var at = correct.IndexOf(text, StringComparison.Ordinal); at >= 0; at = correct.IndexOf(text, at + text.Length, StringComparison.Ordinal))
        {
            count++;
            yield return Make(rule, program, correct[..at], with, correct[(at + text.Length)..]);
        }
        if (count == 0)
            throw new InvalidOperationException($"`{text}` is not in {program}");
    }

    /// <summary>Several rewritings of the same text.</summary>
    public static IEnumerable<SeededFault> Any(string rule, string program, string text, params string[] with) => with.SelectMany(one => Each(rule, program, text, one));

    /// <summary>A fault that shows elsewhere than where the code was changed.</summary>
    /// <param name="place">The text that must be found; its first occurrence.</param>
    public SeededFault ShownAt(string place) => this with { Start = Text.IndexOf(place, StringComparison.Ordinal), Length = place.Length };

    private static SeededFault Make(string rule, string program, string before, string with, string after)
    {
        var start = with.IndexOf(From, StringComparison.Ordinal);
        var length = with.IndexOf(To, StringComparison.Ordinal) - start - 1;
        var code = with.Replace(From.ToString(), "", StringComparison.Ordinal).Replace(To.ToString(), "", StringComparison.Ordinal);
        return new(rule, program, before + code + after, before.Length + start, length);
    }

    public override string ToString() => $"{Rule} in {Program}: {Line()}";

    private string Line()
    {
        var from = Text.LastIndexOf('\n', Math.Max(Start - 1, 0)) + 1;
        var end = Text.IndexOf('\n', Start);
        return Text[from..(end < 0 ? Text.Length : end)].Trim();
    }
}
