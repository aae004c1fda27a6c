using RadioLint.Findings;

namespace RadioLint.Analyzers.Generation;

/// <summary>A file for the compiler.</summary>
internal sealed record GeneratedFile(string Name, string Text);

/// <summary>Something to say about a manifest, without a place in it.</summary>
internal sealed record Remark(string Message);

/// <summary>What comes of one manifest: texts and names only, so that a step of the generator may keep it.</summary>
/// <param name="Path">Of the manifest.</param>
/// <param name="ClassName">Null when the manifest cannot be read far enough.</param>
/// <param name="OnClash">The severity that the manifest gives a clash; null when it says nothing.</param>
/// <param name="Failure">What our own defect was; null when there is none.</param>
internal sealed record GeneratedNetwork(
    string Path, string? ClassName, EquatableArray<GeneratedFile> Files, EquatableArray<Remark> Clashes, Severity? OnClash, string? Failure);
