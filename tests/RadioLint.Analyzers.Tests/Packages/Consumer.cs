using RadioLint.Tests.Analyzers.Support;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>A stranger's projects in a folder of their own, restored from a folder of packages into an empty cache.</summary>
public sealed class Consumer : IDisposable
{
    private readonly Workshop shop = new();
    private readonly HashSet<string> restored = new(StringComparer.Ordinal);

    public Consumer(string feed)
    {
        Settings = Write("nuget.config", $"""
            <configuration>
              <packageSources><clear /><add key="feed" value="{feed}" /></packageSources>
              <fallbackPackageFolders><add key="restored before" value="{Repository.Packages}" /></fallbackPackageFolders>
            </configuration>
            """);
        // What lies above the folder is not looked at.
        Directory.CreateDirectory(At(".git"));
    }

    /// <summary>Where packages come from: the feed, and of others those that this repository's own build restored.</summary>
    public string Settings { get; }

    public string At(string below) => Path.Combine(shop.Folder, below);

    public string Write(string below, string text) => shop.Write(below, text);

    public void Change(string below, string before, string after)
    {
        var text = File.ReadAllText(At(below));
        Assert.Contains(before, text, StringComparison.Ordinal);
        File.WriteAllText(At(below), text.Replace(before, after, StringComparison.Ordinal));
    }

    /// <summary>A build that may fail. The package must come from the feed.</summary>
    public async Task<(int Status, string Output)> Build(string project, string package, params IEnumerable<string> more)
    {
        string[] once = restored.Contains(project) ? ["--no-restore"] : [$"-p:RestorePackagesPath={At("empty-cache")}"];
        var run = await shop.Run("dotnet", ["build", At(project), "-nodeReuse:false", "-nologo", "-tl:off", .. once, .. more]);
        Assert.True(Directory.Exists(At($"empty-cache/{package}")), $"the package did not come from the feed:\n{run.Output}");
        restored.Add(project);
        return run;
    }

    public async Task<string> MustBuild(string project, string package, params IEnumerable<string> more)
    {
        var (status, output) = await Build(project, package, more);
        Assert.True(status == 0, $"the build of {project} ended with {status}:\n{output}");
        return output;
    }

    public Task<string> MustRun(string program, params IEnumerable<string> arguments) => shop.MustRun(program, arguments);

    public void Dispose() => shop.Dispose();
}
