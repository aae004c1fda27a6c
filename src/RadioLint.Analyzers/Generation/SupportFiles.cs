using System.Text;

namespace RadioLint.Analyzers.Generation;

/// <summary>Source that is the same in every program, but for who may see it.</summary>
internal static class SupportFiles
{
    private const string Folder = "Support/";
    private const string OverSpi = "RadioOverSpi.cs";

    /// <summary>The files in ordinal order of their names.</summary>
    public static IEnumerable<GeneratedFile> Of(string access, bool hasSpi)
    {
        var assembly = typeof(SupportFiles).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().OrderBy(name => name, StringComparer.Ordinal))
        {
            if (!name.StartsWith(Folder, StringComparison.Ordinal) || (name == Folder + OverSpi && !hasSpi))
                continue;
            using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
            // Types at the margin alone: members say themselves who may see them.
            var text = reader.ReadToEnd().Replace("\r\n", "\n").Replace("\ninternal ", $"\n{access} ");
            yield return new($"RadioLint.{name.Substring(Folder.Length).Replace(".cs", ".g.cs")}", text);
        }
    }
}
