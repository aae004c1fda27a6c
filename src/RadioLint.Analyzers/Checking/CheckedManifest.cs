using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Analyzers.Generation;
using RadioLint.Text;
using RoslynText = Microsoft.CodeAnalysis.Text.SourceText;

namespace RadioLint.Analyzers.Checking;

/// <summary>
/// A manifest as Core judges it, kept as long as the compiler keeps the text: an edit of C# reads no manifest again.
/// </summary>
internal sealed class CheckedManifest
{
    private static readonly ConditionalWeakTable<RoslynText, CheckedManifest> Kept = new();

    private readonly ImmutableArray<RoslynText> others;

    private CheckedManifest(string path, CheckResult? result, string? failure, ImmutableArray<RoslynText> others) =>
        (Path, Result, Failure, this.others) = (path, result, failure, others);

    public string Path { get; }

    /// <summary>Null when RadioLint failed.</summary>
    public CheckResult? Result { get; }

    /// <summary>What its things are called in C#, with the facts about each node; null when there is no network.</summary>
    public HostNames? Names { get; private init; }

    /// <summary>What our own defect was; null when there is none.</summary>
    public string? Failure { get; }

    /// <summary>A manifest with its record and the files that it may include; null when the compiler cannot read it.</summary>
    public static CheckedManifest? Of(AdditionalText manifest, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        if (manifest.GetText(cancel) is not { } text)
            return null;
        var path = ManifestFiles.PathOf(manifest);
        lock (Kept)
        {
            if (Kept.TryGetValue(text, out var kept) && kept.Path == path && kept.others.SequenceEqual(OtherTexts(path, files, cancel)))
                return kept;
            var made = Check(path, text, files, cancel);
            Kept.Remove(text);
            Kept.Add(text, made);
            return made;
        }
    }

    private static CheckedManifest Check(string path, RoslynText text, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        var others = ImmutableArray.CreateRange(OtherTexts(path, files, cancel));
        try
        {
            var result = Linter.Check(path, text.ToString(), below => Included(path, below, files, cancel), Record(path, files, cancel));
            return new(path, result, null, others) { Names = result.Network is { } network ? new(network, []) : null };
        }
        // The compiler's door: a defect of ours is one diagnostic and never a broken build.
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            return new(path, null, $"{fault.GetType().Name}: {OneLine.Of(fault.Message)}", others);
        }
    }

    private static IEnumerable<RoslynText> OtherTexts(string manifest, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        foreach (var file in files)
        {
            if ((ManifestFiles.MayBeIncluded(file.Path) || ManifestFiles.Belongs(ManifestFiles.PathOf(file), manifest)) && file.GetText(cancel) is { } text)
                yield return text;
        }
    }

    private static byte[]? Included(string manifest, string below, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        var path = manifest.Substring(0, manifest.LastIndexOf('/') + 1) + below;
        return Bytes(files.FirstOrDefault(file => string.Equals(ManifestFiles.PathOf(file), path, StringComparison.Ordinal)), cancel);
    }

    // Where none is among the files, nobody knows whether there is one.
    private static RecordFile? Record(string manifest, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        var found = files.FirstOrDefault(file => ManifestFiles.Belongs(ManifestFiles.PathOf(file), manifest));
        return Bytes(found, cancel) is { } bytes ? new(ManifestFiles.PathOf(found!), bytes) : null;
    }

    private static byte[]? Bytes(AdditionalText? file, CancellationToken cancel) =>
        file?.GetText(cancel) is { } text ? Encoding.UTF8.GetBytes(text.ToString()) : null;
}
