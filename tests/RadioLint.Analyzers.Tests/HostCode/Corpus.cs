using System.IO.Compression;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Text;
using RadioLint.Tests.Analyzers.Support;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>C# that packages carry in their debugging symbols (Portable PDB format 1.0, embedded source), and that knows nothing of radios.</summary>
public static class Corpus
{
    private static readonly Guid EmbeddedSource = new("0E8A571B-6926-466E-B4AD-8AB04611F5FE");

    private static readonly string[] Libraries =
    [
        "humanizer.core/3.0.1/lib/net10.0/Humanizer.dll",
        "icsharpcode.decompiler/11.2.0.10050/lib/netstandard2.0/ICSharpCode.Decompiler.dll",
        "microsoft.codeanalysis.analyzer.testing/1.1.4/lib/net8.0/Microsoft.CodeAnalysis.Analyzer.Testing.dll",
        "microsoft.codeanalysis.csharp/4.14.0/lib/net9.0/Microsoft.CodeAnalysis.CSharp.pdb",
        "kubernetesclient/21.0.8/lib/net10.0/KubernetesClient.pdb",
    ];

    /// <summary>By library, the texts of its files; each library compiles by itself.</summary>
    public static IEnumerable<(string Library, IReadOnlyList<string> Texts)> Read() =>
        Libraries.Select(library => (Path.GetFileNameWithoutExtension(library), (IReadOnlyList<string>)[.. Texts(Path.Combine(Repository.Packages, library))]));

    private static IEnumerable<string> Texts(string file)
    {
        using var stream = File.OpenRead(file);
        using var image = file.EndsWith(".dll", StringComparison.Ordinal) ? new PEReader(stream) : null;
        using var symbols = image is null
            ? MetadataReaderProvider.FromPortablePdbStream(stream)
            : image.ReadEmbeddedPortablePdbDebugDirectoryData(image.ReadDebugDirectory().Single(entry => entry.Type == DebugDirectoryEntryType.EmbeddedPortablePdb));
        var reader = symbols.GetMetadataReader();
        foreach (var handle in reader.CustomDebugInformation)
        {
            var information = reader.GetCustomDebugInformation(handle);
            if (reader.GetGuid(information.Kind) == EmbeddedSource)
                yield return Text(reader.GetBlobBytes(information.Value));
        }
    }

    // Four bytes say how long the text is unpacked; zero when it is not packed.
    private static string Text(byte[] blob)
    {
        if (BitConverter.ToInt32(blob, 0) == 0)
            return Encoding.UTF8.GetString(blob, 4, blob.Length - 4);
        using var packed = new DeflateStream(new MemoryStream(blob, 4, blob.Length - 4), CompressionMode.Decompress);
        using var text = new StreamReader(packed, Encoding.UTF8);
        return text.ReadToEnd();
    }
}
