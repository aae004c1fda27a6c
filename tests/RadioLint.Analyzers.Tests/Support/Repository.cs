using System.Reflection;
using System.Runtime.CompilerServices;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>Where things are.</summary>
public static class Repository
{
    /// <summary>Found from this file's own path at build time.</summary>
    public static string Root { get; } = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", ".."));

    public static string Tests { get; } = Path.Combine(Root, "tests", "RadioLint.Analyzers.Tests");

    public static string ApiaryPath { get; } = Path.Combine(Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml");

    /// <summary>Where the build keeps packages.</summary>
    public static string Packages { get; } = typeof(Repository).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
        .Single(one => one.Key == "PackageFolder").Value!;

    private static string Here([CallerFilePath] string path = "") => path;
}
