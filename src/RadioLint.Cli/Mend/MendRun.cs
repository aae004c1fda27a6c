using System.Collections.Immutable;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Cli.Mend;

/// <summary>What was mended in one manifest.</summary>
/// <param name="Before">Its text as it was.</param>
/// <param name="After">Its text now.</param>
/// <param name="Made">What was done, in order.</param>
internal sealed record MendedFile(ManifestFile File, string Before, string After, ImmutableArray<(Finding Finding, Fix Fix)> Made);

/// <summary>`check --fix`: makes fixes round by round until none is left to make.</summary>
internal sealed class MendRun(CheckTerms terms, Surroundings around, FixGrade most)
{
    // A fix may bring another finding to light; one that brings itself back is stopped here.
    private const int MostRounds = 16;

    /// <summary>A manifest mended in memory; null when it cannot be read, or nothing in it can be mended.</summary>
    public MendedFile? Mend(ManifestFile file, byte[] bytes)
    {
        var text = bytes;
        var made = ImmutableArray.CreateBuilder<(Finding, Fix)>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        string? before = null;
        var after = "";
        for (var round = 0; round < MostRounds; round++)
        {
            var result = new CheckRun(terms, around).Check(file, text);
            if (Source(file, result) is not { } source)
                break;
            after = source.Text;
            before ??= after;
            if (!seen.Add(after))
                break;
            var mended = Mending.Apply(source, result.Findings, most);
            if (mended.Made.IsEmpty)
                break;
            var next = WholeFile.WithMark(bytes, mended.Text);
            // A fix of ours that spoils the file is a defect of ours; the file is not to suffer.
            if (result.Network is not null && new CheckRun(terms, around).Check(file, next).Network is null)
                break;
            made.AddRange(mended.Made);
            (text, after) = (next, mended.Text);
        }
        return made.Count == 0 ? null : new(file, before!, after, made.ToImmutable());
    }

    /// <summary>Puts the mended text in the file's place, its byte order mark kept.</summary>
    public static void Write(MendedFile mended, byte[] bytes) => WholeFile.Replace(mended.File.Path!, Bytes(mended, bytes));

    /// <summary>The mended text as a file.</summary>
    public static byte[] Bytes(MendedFile mended, byte[] original) => WholeFile.WithMark(original, mended.After);

    private static SourceText? Source(ManifestFile file, CheckResult result) =>
        result.Network?.Source ?? result.Findings.Select(finding => finding.Place.Source).FirstOrDefault(source => source.Name == file.Name);
}
