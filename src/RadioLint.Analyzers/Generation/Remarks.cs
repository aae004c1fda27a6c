using Microsoft.CodeAnalysis;
using RadioLint.Analyzers.Checking;
using RadioLint.Findings;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.Generation;

/// <summary>The little that has no place in a manifest: it stands at its start.</summary>
internal static class Remarks
{
    /// <summary>Null when the manifest wants to hear nothing of it.</summary>
    public static Diagnostic? OfClash(string path, string message, Severity? wanted) => wanted is Severity.Silent ? null : Diagnostic.Create(
        Descriptors.Of(HostRules.NameClash), StartOf(path), Descriptors.InCompiler(wanted ?? HostRules.NameClash.Severity), null, null, message);

    public static Diagnostic OfPlatform(string path, string lack) => Diagnostic.Create(Descriptors.Of(HostRules.UnfitProject), StartOf(path), $"this project has {lack}");

    public static Diagnostic OfFailure(string path, string failure) =>
        OfDefect(path, $"failed on this manifest and generated nothing from it, a defect of RadioLint ({failure}): report it with the manifest");

    public static Diagnostic OfDefect(string path, string sentence) => Diagnostic.Create(Descriptors.Of(HostRules.Defect), StartOf(path), $"RadioLint {sentence}");

    private static Location StartOf(string path) => Location.Create(path, default, default);
}
