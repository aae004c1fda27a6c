namespace RadioLint.Cli.Tests.Support;

/// <summary>A folder of its own, gone after the test. It counts as a repository, so that nothing above it is looked at.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public TemporaryFolder()
    {
        Path = Directory.CreateTempSubdirectory("radiolint-").FullName;
        Directory.CreateDirectory(At(".git"));
    }

    public string Path { get; }

    public string At(string below) => System.IO.Path.Combine(Path, below);

    public string Write(string below, string text)
    {
        var file = At(below);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(file)!);
        File.WriteAllText(file, text);
        return file;
    }

    public void Link(string below, string target)
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(At(below))!);
        if (Directory.Exists(System.IO.Path.GetFullPath(target, Path)))
            Directory.CreateSymbolicLink(At(below), target);
        else
            File.CreateSymbolicLink(At(below), target);
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
