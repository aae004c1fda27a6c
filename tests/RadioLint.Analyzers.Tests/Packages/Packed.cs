using RadioLint.Tests.Analyzers.Support;
using RadioLint.Tests.Firmware.Support;
using Xunit;

[assembly: AssemblyFixture(typeof(RadioLint.Tests.Analyzers.Packages.Packed))]

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>This repository's packages in a folder, each packed once for all tests, when the first asks for it; from what the tests were built with, so nothing is built twice.</summary>
public sealed class Packed : IDisposable
{
    private static readonly string Configuration =
        AppContext.BaseDirectory.Contains($"{Path.DirectorySeparatorChar}Release{Path.DirectorySeparatorChar}", StringComparison.Ordinal) ? "Release" : "Debug";

    private readonly Workshop shop = new();
    private readonly Lazy<Task<string>> host;
    private readonly Lazy<Task<string>> core;
    private readonly Lazy<Task<string>> tool;

    public Packed()
    {
        host = new(() => Pack("RadioLint.Analyzers", "--no-build"));
        core = new(() => Pack("RadioLint.Core", "--no-build"));
        tool = new(async () =>
        {
            await Pack("RadioLint.Cli", "--no-build");
            // Built for itself: its folder lies beside that of the build without a runtime.
            return await Pack("RadioLint.Cli", "--no-restore", "-r", "any");
        });
    }

    /// <summary>The command as built from this repository.</summary>
    public static string Command { get; } = Path.Combine(Repository.Root, "src", "RadioLint.Cli", "bin", Configuration, "net10.0", "radiolint.dll");

    public Task<string> Host() => Feed(host);

    public Task<string> Core() => Feed(core);

    /// <summary>The pointer and the package for any runtime, without the native one.</summary>
    public Task<string> Tool() => Feed(tool);

    /// <summary>A package's file: its ID, then the version.</summary>
    public static string FileOf(string feed, string id, string kind = "nupkg") =>
        Directory.EnumerateFiles(feed, $"{id}.*.{kind}").Single(file => char.IsAsciiDigit(Path.GetFileName(file)[id.Length + 1]));

    public void Dispose() => shop.Dispose();

    private async Task<string> Feed(Lazy<Task<string>> package)
    {
        await package.Value;
        return Path.Combine(shop.Folder, "feed");
    }

    private Task<string> Pack(string project, params string[] how) =>
        shop.MustRun("dotnet", ["pack", Path.Combine(Repository.Root, "src", project), "-c", Configuration, "-o", Path.Combine(shop.Folder, "feed"), .. how]);
}
