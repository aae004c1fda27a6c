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

    private readonly ImmutableArray<RoslynText> included;

    private CheckedManifest(string path, CheckResult? result, string? failure, ImmutableArray<RoslynText> included) =>
        (Path, Result, Failure, this.included) = (path, result, failure, included);

    public string Path { get; }

    /// <summary>Null when RadioLint failed.</summary>
    public CheckResult? Result { get; }

    /// <summary>What its things are called in C#, with the facts about each node; null when there is no network.</summary>
    public HostNames? Names { get; private init; }

    /// <summary>What our own defect was; null when there is none.</summary>
    public string? Failure { get; }

    /// <summary>A manifest with the files beside it that it may include; null when the compiler cannot read it.</summary>
    public static CheckedManifest? Of(AdditionalText manifest, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        if (manifest.GetText(cancel) is not { } text)
            return null;
        var path = ManifestFiles.PathOf(manifest);
        lock (Kept)
        {
            if (Kept.TryGetValue(text, out var kept) && kept.Path == path && kept.included.SequenceEqual(OtherTexts(files, cancel)))
                return kept;
            var made = Check(path, text, files, cancel);
            Kept.Remove(text);
            Kept.Add(text, made);
            return made;
        }
    }

    private static CheckedManifest Check(string path, RoslynText text, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        var others = ImmutableArray.CreateRange(OtherTexts(files, cancel));
        try
        {
            var result = Linter.Check(path, text.ToString(), below => Included(path, below, files, cancel));
            return new(path, result, null, others) { Names = result.Network is { } network ? new(network, []) : null };
        }
        // The compiler's door: a defect of ours is one diagnostic and never a broken build.
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            return new(path, null, $"{fault.GetType().Name}: {OneLine.Of(fault.Message)}", others);
        }
    }

    private static IEnumerable<RoslynText> OtherTexts(ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        foreach (var file in files)
        {
            if (ManifestFiles.MayBeIncluded(file.Path) && file.GetText(cancel) is { } text)
                yield return text;
        }
    }

    private static byte[]? Included(string manifest, string below, ImmutableArray<AdditionalText> files, CancellationToken cancel)
    {
        var path = manifest.Substring(0, manifest.LastIndexOf('/') + 1) + below;
        var found = files.FirstOrDefault(file => string.Equals(ManifestFiles.PathOf(file), path, StringComparison.Ordinal));
        return found?.GetText(cancel) is { } text ? Encoding.UTF8.GetBytes(text.ToString()) : null;
    }
}
