using Microsoft.CodeAnalysis;

namespace RadioLint.Analyzers.Generation;

/// <summary>Which of the compiler's files are whose.</summary>
internal static class ManifestFiles
{
    public static bool IsManifest(string path) => EndsWith(path, ".radio.yaml") || EndsWith(path, ".radio.json");

    /// <summary>What a manifest may include: which one is known only when it is read.</summary>
    public static bool MayBeIncluded(string path) =>
        !IsManifest(path) && !IsRecord(path) && (EndsWith(path, ".yaml") || EndsWith(path, ".yml") || EndsWith(path, ".json"));

    /// <summary>The record that `emit` leaves beside a manifest.</summary>
    public static bool IsRecord(string path) => EndsWith(path, ".radio.issued.json");

    /// <summary>A record belongs to the manifest of its name in its folder.</summary>
    public static bool Belongs(string record, string manifest) =>
        EndsWith(record, ".radio.issued.json")
        && string.Equals(record.Substring(0, record.Length - ".issued.json".Length), manifest.Substring(0, manifest.Length - ".yaml".Length), StringComparison.Ordinal);

    /// <summary>The path with '/' between folders, as everything of ours has it.</summary>
    public static string PathOf(AdditionalText file) => file.Path.Replace('\\', '/');

    private static bool EndsWith(string path, string ending) => path.EndsWith(ending, StringComparison.OrdinalIgnoreCase);
}
