namespace RadioLint.Cli.Files;

/// <summary>One manifest to read.</summary>
/// <param name="Name">As findings name it: the way the user did, with '/'.</param>
/// <param name="Path">Its full path; null for standard input.</param>
/// <param name="Folder">The folder that its includes lie below, as a full path.</param>
internal sealed record ManifestFile(string Name, string? Path, string Folder)
{
    public const string StandardInput = "-";

    /// <summary>The name that findings in standard input carry unless the user gives one.</summary>
    public const string UnnamedInput = "<stdin>";

    public static bool HasItsName(string name) =>
        name.EndsWith(".radio.yaml", StringComparison.Ordinal) || name.EndsWith(".radio.json", StringComparison.Ordinal);

    public static string Slashes(string path) => System.IO.Path.DirectorySeparatorChar == '/' ? path : path.Replace('\\', '/');
}
