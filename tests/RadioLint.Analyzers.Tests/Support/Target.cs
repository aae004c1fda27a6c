using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>A platform and a language version that a host program may be compiled for.</summary>
public sealed record Target(string Name, LanguageVersion Language, ImmutableArray<MetadataReference> References)
{
    public static Target Net100 { get; } = new("net10.0", LanguageVersion.CSharp13, [.. Basic.Reference.Assemblies.Net100.References.All]);

    public static Target Net90 { get; } = new("net9.0", LanguageVersion.CSharp13, [.. Basic.Reference.Assemblies.Net90.References.All]);

    public static Target Net80 { get; } = new("net8.0", LanguageVersion.CSharp12, [.. Basic.Reference.Assemblies.Net80.References.All]);

    public static Target Standard { get; } = new("netstandard2.0", LanguageVersion.CSharp10,
    [
        .. Directory.EnumerateFiles(Package("netstandard.library", "2.0.3", "build", "netstandard2.0", "ref"), "*.dll").Order(StringComparer.Ordinal).Select(Reference),
        Reference(Package("system.memory", "4.6.3", "lib", "netstandard2.0", "System.Memory.dll")),
        Reference(Package("system.buffers", "4.6.1", "lib", "netstandard2.0", "System.Buffers.dll")),
        Reference(Package("system.runtime.compilerservices.unsafe", "6.1.2", "lib", "netstandard2.0", "System.Runtime.CompilerServices.Unsafe.dll")),
    ]);

    public static IEnumerable<Target> All => [Net100, Net90, Net80, Standard];

    /// <summary>The same with the SPI types of the general device package, which is there from .NET 8 on.</summary>
    public Target WithSpi => this with
    {
        Name = Name + " with SPI",
        References = [.. References, Reference(Package("system.device.gpio", "4.2.0", "lib", "net8.0", "System.Device.Gpio.dll"))],
    };

    /// <summary>The same with the serial port of the general package.</summary>
    public Target WithPorts => this with
    {
        Name = Name + " with ports",
        References = [.. References, Reference(Package("system.io.ports", "10.0.15", "lib", "net10.0", "System.IO.Ports.dll"))],
    };

    public override string ToString() => Name;

    private static PortableExecutableReference Reference(string path) => MetadataReference.CreateFromFile(path);

    private static string Package(params string[] parts) => Path.Combine([Repository.Packages, .. parts]);
}
