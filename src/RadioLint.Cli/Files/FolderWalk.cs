namespace RadioLint.Cli.Files;

/// <summary>Finds the manifests below a folder, each once.</summary>
internal sealed class FolderWalk
{
    private readonly string root;
    private readonly List<Unread> unread;
    private readonly HashSet<string> folders = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> files = new(StringComparer.Ordinal);
    private readonly Queue<(string Full, string Below, bool IsFolder)> links = new();

    private FolderWalk(string root, List<Unread> unread)
    {
        this.root = root;
        this.unread = unread;
    }

    /// <summary>Paths below the folder with '/', in ordinal order.</summary>
    public static IEnumerable<string> Below(string folder, List<Unread> unread)
    {
        if (RealPath.Of(folder) is not { } root)
            return [];
        var walk = new FolderWalk(root, unread);
        walk.Enter(root, "");
        // Links last: a file that has a name of its own in the tree goes by that.
        while (walk.links.TryDequeue(out var link))
        {
            if (link.IsFolder)
                walk.Enter(link.Full, link.Below + "/");
            else
                walk.files.TryAdd(link.Full, link.Below);
        }
        return walk.files.Values.Order(StringComparer.Ordinal);
    }

    private void Enter(string folder, string below)
    {
        if (!folders.Add(folder))
            return;
        try
        {
            foreach (var entry in new DirectoryInfo(folder).EnumerateFileSystemInfos())
                Meet(entry, below + entry.Name);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            unread.Add(new(below.Length == 0 ? "." : below.TrimEnd('/'), Trouble.Words(fault)));
        }
    }

    private void Meet(FileSystemInfo entry, string below)
    {
        var isLink = entry.LinkTarget is not null;
        var full = isLink ? RealPath.Of(entry.FullName) : entry.FullName;
        if (full is null || (isLink && !RealPath.IsWithin(full, root)))
            return;
        var isFolder = isLink ? Directory.Exists(full) : entry is DirectoryInfo;
        if (isFolder ? IsPassedOver(entry.Name) : !ManifestFile.HasItsName(entry.Name))
            return;
        if (isLink)
            links.Enqueue((full, below, isFolder));
        else if (isFolder)
            Enter(full, below + "/");
        else
            files[full] = below;
    }

    private static bool IsPassedOver(string name) => name[0] == '.' || name is "bin" or "obj" or "node_modules";
}
