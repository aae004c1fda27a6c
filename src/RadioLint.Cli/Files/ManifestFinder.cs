using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Files;

/// <summary>From what stands on the command line to the manifests meant.</summary>
internal static class ManifestFinder
{
    /// <summary>Each manifest once, in the order given, those of a folder in ordinal order.</summary>
    /// <param name="inputName">The name that standard input stands for; null when it has none.</param>
    public static IReadOnlyList<ManifestFile> Find(IEnumerable<string> places, string? inputName, Surroundings around, List<Unread> unread)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        return [.. places.SelectMany(place => At(place, inputName, around, unread)).Where(file => seen.Add(Identity(file)))];
    }

    private static string Identity(ManifestFile file) => file.Path is { } path ? RealPath.Of(path) ?? path : ManifestFile.StandardInput;

    private static List<ManifestFile> At(string place, string? inputName, Surroundings around, List<Unread> unread)
    {
        if (place == ManifestFile.StandardInput)
            return [Input(inputName, around)];
        if (place.Length == 0 || place.Contains('\0'))
        {
            unread.Add(new(place, "it is no path"));
            return [];
        }
        var full = around.FullPath(place);
        if (Directory.Exists(full))
            return InFolder(place, full, unread);
        if (File.Exists(full))
            return [new(ManifestFile.Slashes(place), full, Path.GetDirectoryName(full)!)];
        unread.Add(new(ManifestFile.Slashes(place), "there is no such file or folder"));
        return [];
    }

    private static ManifestFile Input(string? name, Surroundings around) => name is { Length: > 0 }
        ? new(ManifestFile.Slashes(name), null, Path.GetDirectoryName(around.FullPath(name)) ?? around.Folder)
        : new(ManifestFile.UnnamedInput, null, around.Folder);

    private static List<ManifestFile> InFolder(string place, string full, List<Unread> unread)
    {
        var shown = ManifestFile.Slashes(place).TrimEnd('/');
        var prefix = shown == "." ? "" : shown + "/";
        var troubles = new List<Unread>();
        var found = FolderWalk.Below(full, troubles)
            .Select(below => Path.Combine(full, below) is var path ? new ManifestFile(prefix + below, path, Path.GetDirectoryName(path)!) : null!)
            .ToList();
        unread.AddRange(troubles.Select(trouble => trouble with { File = trouble.File == "." ? ManifestFile.Slashes(place) : prefix + trouble.File }));
        if (found.Count == 0 && troubles.Count == 0)
            unread.Add(new(ManifestFile.Slashes(place), "no *.radio.yaml or *.radio.json lies below this folder"));
        return found;
    }
}
