using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Text;

namespace RadioLint.Rules.HostCode;

/// <summary>
/// Remedies of a finding on a manifest as a diagnostic's properties, for the code fixes: `fix.0.title`, and for each edit `fix.0.edit.0.file`, `start`,
/// `old` and `new`.
/// </summary>
public static class ManifestFixNotes
{
    /// <summary>Some text of a file with another in its place.</summary>
    /// <param name="File">As the compiler names it, with '/' between folders.</param>
    /// <param name="Start">In UTF-16 units.</param>
    public sealed record NotedEdit(string File, int Start, string Old, string New);

    /// <summary>A remedy.</summary>
    public sealed record NotedFix(string Title, ImmutableArray<NotedEdit> Edits);

    public static ImmutableDictionary<string, string?> Write(ImmutableArray<Fix> fixes)
    {
        var notes = ImmutableDictionary.CreateBuilder<string, string?>(StringComparer.Ordinal);
        for (var i = 0; i < fixes.Length; i++)
        {
            notes.Add(Title(i), fixes[i].Title);
            for (var j = 0; j < fixes[i].Edits.Length; j++)
            {
                var (place, text) = (fixes[i].Edits[j].Place, fixes[i].Edits[j].NewText);
                notes.Add(Part(i, j, "file"), place.Source.Name);
                notes.Add(Part(i, j, "start"), place.Start.ToString(CultureInfo.InvariantCulture));
                notes.Add(Part(i, j, "old"), place.Text);
                notes.Add(Part(i, j, "new"), text);
            }
        }
        return notes.ToImmutable();
    }

    /// <summary>What was written; empty where nothing was.</summary>
    public static ImmutableArray<NotedFix> Read(ImmutableDictionary<string, string?> notes)
    {
        var fixes = ImmutableArray.CreateBuilder<NotedFix>();
        for (var i = 0; notes.TryGetValue(Title(i), out var title) && title is not null; i++)
        {
            var edits = ImmutableArray.CreateBuilder<NotedEdit>();
            for (var j = 0; Note(notes, i, j, "file") is { } file; j++)
            {
                if (Note(notes, i, j, "old") is { } old && Note(notes, i, j, "new") is { } now && int.TryParse(Note(notes, i, j, "start"), NumberStyles.None, CultureInfo.InvariantCulture, out var start))
                    edits.Add(new(file, start, old, now));
            }
            fixes.Add(new(title, edits.ToImmutable()));
        }
        return fixes.ToImmutable();
    }

    private static string? Note(ImmutableDictionary<string, string?> notes, int fix, int edit, string part) =>
        notes.TryGetValue(Part(fix, edit, part), out var note) ? note : null;

    private static string Title(int fix) => FormattableString.Invariant($"fix.{fix}.title");

    private static string Part(int fix, int edit, string part) => FormattableString.Invariant($"fix.{fix}.edit.{edit}.{part}");
}
