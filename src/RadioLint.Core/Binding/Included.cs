using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>What the included files bring: boards, payloads, rules.</summary>
internal sealed class Included
{
    private const int MostFiles = 64;
    private readonly string folder;

    // All paths are below the manifest's folder, those in included files too.
    private Included(string manifest) => folder = manifest.Substring(0, manifest.LastIndexOf('/') + 1);

    public List<Named<BoardChoice>> Boards { get; } = [];

    public List<Named<Payload>> Payloads { get; } = [];

    public List<RuleSettings> Rules { get; } = [];

    /// <summary>Reads all included files, those that they include too; each file once.</summary>
    public static Included ReadAll(Settings root, Func<string, byte[]?> include, List<Finding> findings)
    {
        var all = new Included(root.Place.Source.Name);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        if (root.Written(RootKeys.Include) is { } files)
            all.Read(files.Value, [], seen, include, findings);
        return all;
    }

    private void Read(
        IEnumerable<Stated<string>> files, List<string> chain, HashSet<string> seen, Func<string, byte[]?> include, List<Finding> findings)
    {
        foreach (var file in files)
        {
            var name = file.Value;
            if (IncludeFault.Escapes(name))
                findings.Add(IncludeFault.Outside(file.Place, name));
            else if (chain.Contains(name, StringComparer.Ordinal))
                findings.Add(IncludeFault.Circle(file.Place, name));
            else if (seen.Count >= MostFiles)
                findings.Add(IncludeFault.TooMany(file.Place, MostFiles));
            else if (seen.Add(name))
                ReadOne(file, chain, seen, include, findings);
        }
    }

    private void ReadOne(Stated<string> file, List<string> chain, HashSet<string> seen, Func<string, byte[]?> include, List<Finding> findings)
    {
        if (include(file.Value) is not { } bytes)
        {
            findings.Add(IncludeFault.Missing(file.Place, file.Value));
            return;
        }
        if (FileText.Decode(folder + file.Value, bytes, findings) is not { } source
            || TreeReader.Read(source, findings) is not { } tree
            || !RootKeys.IncludedShape.TryRead(tree, findings, out var settings))
        {
            return;
        }
        Boards.AddRange(settings.Written(RootKeys.IncludedBoards)?.Value ?? ImmutableArray<Named<BoardChoice>>.Empty);
        Payloads.AddRange(settings.Written(RootKeys.IncludedPayloads)?.Value ?? ImmutableArray<Named<Payload>>.Empty);
        if (settings.Written(RootKeys.IncludedRules) is { } rules)
            Rules.Add(rules.Value);
        if (settings.Written(RootKeys.IncludedInclude) is { } further)
            Read(further.Value, [.. chain, file.Value], seen, include, findings);
    }
}
