namespace RadioLint.Cli.Files;

/// <summary>Yields the files that a manifest includes: below its folder only, and no link may lead out.</summary>
/// <param name="alsoRead">Takes each file that was read, as findings name it.</param>
/// <param name="asked">Takes the full path of each that was asked for, whether it is there or not.</param>
internal sealed class IncludeReader(ManifestFile manifest, List<Unread> unread, List<string> alsoRead, List<string> asked)
{
    /// <summary>The bytes of a file by its path below the manifest's folder; null when there is none.</summary>
    public byte[]? Read(string below)
    {
        if (below.Contains('\0')
            || RealPath.Of(manifest.Folder) is not { } folder
            || RealPath.Of(Path.GetFullPath(below, manifest.Folder)) is not { } path
            || !RealPath.IsWithin(path, folder))
        {
            return null;
        }
        asked.Add(path);
        if (!File.Exists(path))
            return null;
        try
        {
            var bytes = BoundedReader.ReadFile(path);
            alsoRead.Add(manifest.Name[..(manifest.Name.LastIndexOf('/') + 1)] + below);
            return bytes;
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            unread.Add(new($"{below}, included by {manifest.Name}", Trouble.Words(fault)));
            return null;
        }
    }
}
