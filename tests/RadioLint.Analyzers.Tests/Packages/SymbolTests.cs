using System.IO.Compression;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Xunit;

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>What a debugger gets: every source file inside the symbols, since no address is known to fetch one from.</summary>
public sealed class SymbolTests(Packed packed)
{
    // "Embedded Source" of the Portable PDB format specification.
    private static readonly Guid EmbeddedSource = new("0E8A571B-6926-466E-B4AD-8AB04611F5FE");

    [Fact]
    public async Task Symbols_hold_the_sources()
    {
        var core = Packed.FileOf(await packed.Core(), "RadioLint.Core", "snupkg");
        AssertSources(await Inside(Packed.FileOf(await packed.Host(), "RadioLint"), "analyzers/dotnet/cs/RadioLint.Analyzers.dll"), "NetworkGenerator.cs");
        AssertSources(await Inside(Packed.FileOf(await packed.Tool(), "RadioLint.Tool.any"), "tools/net10.0/any/radiolint.dll"), "EmitCommand.cs");
        AssertSources(await Inside(core, "lib/net10.0/RadioLint.Core.pdb"), "Linter.cs");
        AssertSources(await Inside(core, "lib/netstandard2.0/RadioLint.Core.pdb"), "Linter.cs");
    }

    [Fact]
    public async Task The_library_inside_the_compiler_is_the_published_one()
    {
        // So that its symbols, which are not in that package, are those of the library's own.
        Assert.Equal(
            await Inside(Packed.FileOf(await packed.Core(), "RadioLint.Core"), "lib/netstandard2.0/RadioLint.Core.dll"),
            await Inside(Packed.FileOf(await packed.Host(), "RadioLint"), "analyzers/dotnet/cs/RadioLint.Core.dll"));
    }

    private static void AssertSources(byte[] file, string one)
    {
        using var stream = new MemoryStream(file);
        using var assembly = file is [(byte)'M', (byte)'Z', ..] ? new PEReader(stream) : null;
        using var symbols = assembly is null
            ? MetadataReaderProvider.FromPortablePdbStream(stream)
            : assembly.ReadEmbeddedPortablePdbDebugDirectoryData(assembly.ReadDebugDirectory().Single(entry => entry.Type is DebugDirectoryEntryType.EmbeddedPortablePdb));
        var reader = symbols.GetMetadataReader();
        var names = reader.Documents.Select(document => reader.GetString(reader.GetDocument(document).Name)).ToList();
        Assert.Contains(names, name => name.EndsWith("/" + one, StringComparison.Ordinal));
        Assert.Empty(reader.Documents.Where(document => !reader.GetCustomDebugInformation(document).Any(info => reader.GetGuid(reader.GetCustomDebugInformation(info).Kind) == EmbeddedSource))
            .Select(document => reader.GetString(reader.GetDocument(document).Name)));
    }

    private static async Task<byte[]> Inside(string package, string name)
    {
        await using var archive = await ZipFile.OpenReadAsync(package, TestContext.Current.CancellationToken);
        await using var entry = await archive.GetEntry(name)!.OpenAsync(TestContext.Current.CancellationToken);
        using var bytes = new MemoryStream();
        await entry.CopyToAsync(bytes, TestContext.Current.CancellationToken);
        return bytes.ToArray();
    }
}
