namespace RadioLint.Cli.Files;

/// <summary>How some files stand: enough to see that one was saved, without reading it.</summary>
internal sealed class Stamps : IEquatable<Stamps>
{
    private static readonly (long Length, long Written) Missing = (-1, 0);

    private readonly SortedDictionary<string, (long Length, long Written)> files = new(StringComparer.Ordinal);

    /// <summary>As they stand now.</summary>
    /// <param name="earlier">Where it knows a file, that file is not looked at again.</param>
    public static Stamps Of(IEnumerable<string> paths, Stamps? earlier = null)
    {
        var stamps = new Stamps();
        foreach (var path in paths)
            stamps.files[path] = earlier is not null && earlier.files.TryGetValue(path, out var known) ? known : StampOf(path);
        return stamps;
    }

    /// <summary>How many of them there are.</summary>
    public int Count => files.Values.Count(file => file.Length >= 0);

    /// <summary>True when a file that held something is gone or empty: whoever saves it may be half-way.</summary>
    public bool Lost(Stamps now) => files.Any(file => file.Value.Length > 0 && (!now.files.TryGetValue(file.Key, out var other) || other.Length <= 0));

    public bool Equals(Stamps? other) => other is not null && files.SequenceEqual(other.files);

    public override bool Equals(object? obj) => Equals(obj as Stamps);

    public override int GetHashCode() => files.Count;

    private static (long Length, long Written) StampOf(string path)
    {
        try
        {
            return new FileInfo(path) is { Exists: true } file ? (file.Length, file.LastWriteTimeUtc.Ticks) : Missing;
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            // It went while it was looked at, or may not be looked at: not there, as far as this goes.
            return Missing;
        }
    }
}
