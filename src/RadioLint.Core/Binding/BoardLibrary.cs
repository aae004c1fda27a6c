using System.Collections.Concurrent;
using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>Board profiles by name: the manifest's own, then the shipped ones, which are read when first named.</summary>
internal sealed class BoardLibrary
{
    private readonly Dictionary<string, Named<BoardChoice>> own = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Board?> resolved = new(StringComparer.Ordinal);
    private readonly List<Finding> findings;
    private bool isMissed;

    public BoardLibrary(IEnumerable<Named<BoardChoice>> ownBoards, List<Finding> findings)
    {
        this.findings = findings;
        // The manifest's own come first, then those of the files in the order of their inclusion.
        foreach (var board in ownBoards)
        {
            if (!own.TryGetValue(board.Name.Text, out var counts))
                own.Add(board.Name.Text, board);
            else if (counts.Name.Place.Source != board.Name.Place.Source)
                findings.Add(IncludeOverridden.At(counts.Name.Place, $"the board `{board.Name.Text}`", board.Name.Place));
        }
    }

    /// <summary>Names of a file's boards that no node has and no other board is based on; none while a name is unknown, which may be a slip for one of them.</summary>
    public IEnumerable<LocatedScalar> Unused(SourceText file) => isMissed
        ? []
        : own.Values.Select(board => board.Name).Where(name => name.Place.Source == file && !resolved.ContainsKey(name.Text));

    /// <summary>The board that a node names or writes out; null with a finding when there is none.</summary>
    public Board? Resolve(Stated<BoardChoice> choice) =>
        choice.Value.Own is { } written
            ? Extend("", written, ImmutableList<string>.Empty)
            : Named(choice.Value.Name!.Value, choice.Place, ImmutableList<string>.Empty);

    private Board? Named(string name, Place place, ImmutableList<string> chain)
    {
        if (resolved.TryGetValue(name, out var known))
            return known;
        if (own.TryGetValue(name, out var board))
        {
            if (chain.Contains(name))
            {
                findings.Add(UndefinedReference.Circle(place, name));
                return null;
            }
            return resolved[name] = Extend(name, board.Value.Value.Own!, chain.Add(name));
        }
        if (ShippedBoards.Find(name) is { } shipped)
            return shipped;
        isMissed = true;
        findings.Add(UndefinedReference.At(place, name, "board", own.Keys.Concat(ShippedBoards.Names).OrderBy(known => known, StringComparer.Ordinal)));
        return null;
    }

    private Board? Extend(string name, Settings settings, ImmutableList<string> chain)
    {
        Board? basis = null;
        if (settings.Has(BoardKeys.BasedOn))
        {
            if (settings.Written(BoardKeys.BasedOn) is not { } basedOn)
                return null;
            basis = Named(basedOn.Value, basedOn.Place, chain);
            if (basis is null)
                return null;
        }
        return BoardBuilder.Build(name.Length == 0 ? basis?.Name ?? "" : name, basis, settings);
    }
}

/// <summary>The profiles that RadioLint brings.</summary>
public static class ShippedBoards
{
    private const string Folder = "Hardware/boards/";
    private static readonly ConcurrentDictionary<string, Board?> Read = new(StringComparer.Ordinal);

    /// <summary>Their names, in ordinal order.</summary>
    public static ImmutableArray<string> Names { get; } = ImmutableArray.CreateRange(DataFile.NamesIn(Folder));

    /// <summary>A shipped profile; null when there is none of that name.</summary>
    public static Board? Find(string name) => Names.Contains(name, StringComparer.Ordinal) ? Read.GetOrAdd(name, Load) : null;

    private static Board Load(string name)
    {
        var findings = new List<Finding>();
        if (!BoardKeys.Profile.TryRead(DataFile.Load($"{Folder}{name}.yaml"), findings, out var settings) || findings.Count > 0)
            throw new InvalidOperationException($"{findings[0].Place}: {findings[0].Message}");
        return BoardBuilder.Build(name, null, settings) with { IsLogicUsual = true };
    }
}
