namespace RadioLint.Cli.Files;

/// <summary>Where a path leads once every link on it is followed.</summary>
internal static class RealPath
{
    // As many as Linux follows (path_resolution(7)).
    private const int MostLinks = 40;

    /// <summary>The path without links, or null when its links run in a circle. Need not exist.</summary>
    public static string? Of(string fullPath)
    {
        var at = Path.GetPathRoot(fullPath) ?? "/";
        var ahead = new Stack<string>();
        Push(ahead, fullPath[at.Length..]);
        for (var links = 0; ahead.TryPop(out var name);)
        {
            if (name is "." or "..")
            {
                at = name == "." ? at : Path.GetDirectoryName(at) ?? at;
                continue;
            }
            var next = Path.Combine(at, name);
            if (new FileInfo(next).LinkTarget is not { } target)
            {
                at = next;
                continue;
            }
            if (++links > MostLinks)
                return null;
            var root = Path.IsPathRooted(target) ? Path.GetPathRoot(target)! : "";
            at = root.Length > 0 ? root : at;
            Push(ahead, target[root.Length..]);
        }
        return at;
    }

    /// <summary>True when one path without links lies at or below another.</summary>
    public static bool IsWithin(string path, string folder) =>
        path == folder
        || (path.StartsWith(folder, StringComparison.Ordinal)
            && (Path.EndsInDirectorySeparator(folder) || path[folder.Length] == Path.DirectorySeparatorChar));

    private static void Push(Stack<string> ahead, string path)
    {
        foreach (var name in path.Split([Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries).Reverse())
            ahead.Push(name);
    }
}
