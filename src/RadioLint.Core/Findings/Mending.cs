using System.Collections.Immutable;
using System.Text;
using RadioLint.Text;

namespace RadioLint.Findings;

/// <summary>A text with some fixes made.</summary>
/// <param name="Text">Every byte outside the edits as it was.</param>
/// <param name="Made">The findings whose fixes were made, each with the fix.</param>
public sealed record Mended(string Text, ImmutableArray<(Finding Finding, Fix Fix)> Made);

/// <summary>Carries fixes out on one file. A fix is made whole or not at all; one that overlaps another waits for the next round.</summary>
public static class Mending
{
    /// <summary>Makes the first fitting fix of each finding, in the order of the findings.</summary>
    /// <param name="source">The file; fixes that reach into another one are left alone.</param>
    /// <param name="most">Up to which grade fixes are made.</param>
    public static Mended Apply(SourceText source, IEnumerable<Finding> findings, FixGrade most)
    {
        var edits = new SortedSet<Edit>(ByPlace.Instance);
        var made = ImmutableArray.CreateBuilder<(Finding, Fix)>();
        foreach (var finding in findings)
        {
            if (finding.Fixes.FirstOrDefault(fix => fix.Grade <= most && !fix.Edits.IsEmpty) is not { } fix || !Fits(fix, source, edits))
                continue;
            edits.UnionWith(fix.Edits);
            made.Add((finding, fix));
        }
        return new(Write(source.Text, edits), made.ToImmutable());
    }

    // The same edit wanted twice is one: a fault of two nodes may have one remedy.
    private static bool Fits(Fix fix, SourceText source, SortedSet<Edit> edits)
    {
        foreach (var edit in fix.Edits)
        {
            if (!ReferenceEquals(edit.Place.Source, source))
                return false;
            if (!edits.Contains(edit) && edits.Any(other => Touch(edit.Place, other.Place)))
                return false;
        }
        // Nor may its own edits be in each other's way.
        return fix.Edits.All(one => fix.Edits.Count(other => Touch(one.Place, other.Place)) == 1);
    }

    // Two insertions at one place would need an order that nobody has given.
    private static bool Touch(Place one, Place other) =>
        (one.Start < other.End && other.Start < one.End) || one.Start == other.Start;

    private static string Write(string text, SortedSet<Edit> edits)
    {
        var made = new StringBuilder();
        var at = 0;
        foreach (var edit in edits)
        {
            made.Append(text, at, edit.Place.Start - at).Append(edit.NewText);
            at = edit.Place.End;
        }
        return made.Append(text, at, text.Length - at).ToString();
    }

    private sealed class ByPlace : IComparer<Edit>
    {
        public static readonly ByPlace Instance = new();

        public int Compare(Edit x, Edit y)
        {
            var order = x.Place.Start.CompareTo(y.Place.Start);
            order = order != 0 ? order : x.Place.Length.CompareTo(y.Place.Length);
            return order != 0 ? order : string.CompareOrdinal(x.NewText, y.NewText);
        }
    }
}
