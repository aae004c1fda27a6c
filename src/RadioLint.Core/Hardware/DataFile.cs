using System.Text;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Hardware;

/// <summary>
/// The data files that ship inside the library; who names one reads it once and keeps what it says. A fault in one is a defect of ours, not of the
/// user's manifest, so it throws <see cref="InvalidOperationException"/> with file, line and column.
/// </summary>
internal static class DataFile
{
    /// <summary>The file as it stands, by its resource name such as `Hardware/cells.yaml`.</summary>
    public static LocatedMap Load(string name) => DataTree.Read(Source(name));

    /// <summary>The file by its table of keys, with the titles of documents where it names them in short.</summary>
    public static T Read<T>(string name, Shape<T> shape) => Read(Load(name), shape);

    /// <summary>The names, without extension, of the files in a folder such as `Hardware/radios/`, in ordinal order.</summary>
    public static IReadOnlyList<string> NamesIn(string folder) =>
    [
        .. typeof(DataFile).Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(folder, StringComparison.Ordinal) && name.EndsWith(".yaml", StringComparison.Ordinal))
            .Select(name => name.Substring(folder.Length, name.Length - folder.Length - ".yaml".Length))
            .OrderBy(name => name, StringComparer.Ordinal),
    ];

    internal static T Read<T>(LocatedMap tree, Shape<T> shape)
    {
        var findings = new List<Finding>();
        SourceTitles.SpellOut(tree, findings);
        var isRead = shape.TryRead(tree, findings, out var result);
        ThrowAtFirst(findings);
        return isRead ? result! : throw new InvalidOperationException($"{tree.Place}: {shape.Expected} is expected");
    }

    internal static SourceText Source(string name)
    {
        using var stream = typeof(DataFile).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"{name}: no data file has this name");
        // The files are ours: UTF-8 without a mark, and decoded in one go.
        using var reader = new BinaryReader(stream);
        return new(name, Encoding.UTF8.GetString(reader.ReadBytes((int)stream.Length)));
    }

    private static void ThrowAtFirst(List<Finding> findings)
    {
        if (findings.Count > 0)
            throw new InvalidOperationException($"{findings[0].Place}: {findings[0].Message}");
    }
}
