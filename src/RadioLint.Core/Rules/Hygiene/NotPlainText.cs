using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8012: the file is not UTF-8, or tabs indent it.</summary>
public static class NotPlainText
{
    private const string Blanks = "  ";

    public static readonly Descriptor Rule = new(
        "RL8012", Severity.Error, "Not UTF-8, or indented with tabs", "Unicode 15.0 table 3-7; YAML 1.2.2 section 6.1: no tab in indentation", "0.1")
    {
        IsFixed = true,
    };

    public static Finding Encoding(Place place, byte first) =>
        new(Rule, place, FormattableString.Invariant($"the byte 0x{first:X2} here is not UTF-8"), "save the file as UTF-8; reading stops here, so later faults are not shown yet");

    public static Finding Tab(Place tab)
    {
        var edits = Edits(tab.Source);
        return new(Rule, tab, "a tab indents this line; YAML is indented with blanks", "indent with blanks; reading stops here, so later faults are not shown yet")
        {
            Fixes = edits.IsEmpty ? ImmutableArray<Fix>.Empty : ImmutableArray.Create(new Fix(FixGrade.Safe, "Indent with two blanks for each tab", edits)),
        };
    }

    // How wide a tab is meant to be, nobody knows: where blanks indent as well, two for each may change which line belongs to which.
    private static ImmutableArray<Edit> Edits(SourceText source)
    {
        var edits = ImmutableArray.CreateBuilder<Edit>();
        var text = source.Text;
        for (var start = 0; start < text.Length; start++)
        {
            var end = start;
            while (end < text.Length && text[end] is '\t' or ' ')
                end++;
            var isBlank = end == text.Length || text[end] is '\n' or '\r';
            var tabs = text.Substring(start, end - start);
            if (!isBlank && tabs.IndexOf(' ') >= 0)
                return ImmutableArray<Edit>.Empty;
            if (!isBlank && tabs.Length > 0)
                edits.Add(new(new(source, start, tabs.Length), string.Concat(Enumerable.Repeat(Blanks, tabs.Length))));
            start = text.IndexOf('\n', end) is >= 0 and var next ? next : text.Length;
        }
        return edits.ToImmutable();
    }
}
