using System.Reflection;
using System.Runtime.Loader;
using Microsoft.CodeAnalysis;

namespace RadioLint.Benchmarks;

/// <summary>The analyzer as a compiler loads it: from a folder of its own, with the library for netstandard2.0 beside it and not the one of this process.</summary>
internal sealed class AnalyzerFolder : AssemblyLoadContext
{
#if DEBUG
    private const string Configuration = "Debug";
#else
    private const string Configuration = "Release";
#endif

    private static readonly string[] Shipped = ["RadioLint.Analyzers", "RadioLint.Core", "YamlDotNet"];
    private static readonly string Folder = Path.Combine(NativeBuild.Root(), "src", "RadioLint.Analyzers", "bin", Configuration, "netstandard2.0");

    public static ISourceGenerator Generator()
    {
        var assembly = new AnalyzerFolder().LoadFromAssemblyPath(PathOf("RadioLint.Analyzers"));
        var type = assembly.GetType("RadioLint.Analyzers.Generation.NetworkGenerator", throwOnError: true)!;
        return ((IIncrementalGenerator)Activator.CreateInstance(type)!).AsSourceGenerator();
    }

    protected override Assembly? Load(AssemblyName name) => Shipped.Contains(name.Name) ? LoadFromAssemblyPath(PathOf(name.Name!)) : null;

    private static string PathOf(string name) => Path.Combine(Folder, name + ".dll");
}
