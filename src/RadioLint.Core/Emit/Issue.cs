using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Emit;

/// <summary>What was issued for one node.</summary>
/// <param name="Frames">The bytes of its frame table as hex, a frame a text.</param>
public sealed record IssuedNode(string Name, string Digest, string Fingerprint, ImmutableArray<string> Frames, string File, string FileHash);

/// <summary>What was issued of one payload.</summary>
/// <param name="Layout">Digest of its layout.</param>
/// <param name="Version">The constant of its field in the role `version`; null without one.</param>
public sealed record IssuedPayload(string Name, string Layout, string? Version);

/// <summary>What programs were built from, as far as the next emit, `check`, `readback` and `changes` need to know. All lists in ordinal order.</summary>
public sealed record IssuedState(ImmutableArray<IssuedNode> Nodes, ImmutableArray<IssuedPayload> Payloads, string ContractHash)
{
    /// <summary>The other files: the link layer and programs, with the hashes they were issued with.</summary>
    public ImmutableArray<(string Name, string Hash)> Others { get; init; } = [];

    public bool IsSameAs(IssuedState? other) =>
        other is not null && ContractHash == other.ContractHash && Payloads.AsSpan().SequenceEqual(other.Payloads.AsSpan())
        && Others.AsSpan().SequenceEqual(other.Others.AsSpan())
        && Nodes.Length == other.Nodes.Length && Nodes.Zip(other.Nodes).All(pair => IsSame(pair.First, pair.Second));

    /// <summary>Names and hashes of its files.</summary>
    public IEnumerable<(string Name, string Hash)> Files() =>
        Nodes.Select(node => (node.File, node.FileHash)).Prepend((EmitSet.ContractFile, ContractHash)).Concat(Others);

    private static bool IsSame(IssuedNode a, IssuedNode b) => a.Frames.AsSpan().SequenceEqual(b.Frames.AsSpan()) && a with { Frames = b.Frames } == b;
}

/// <summary>The record of an emit, kept beside the manifest: the state now and the one before.</summary>
/// <param name="LeftOver">Files of nodes that are gone, with the hashes they were issued with.</param>
public sealed record Issue(string Network, IssuedState Now, IssuedState? Before, ImmutableArray<(string Name, string Hash)> LeftOver)
{
    /// <summary>The record's own format.</summary>
    public const int Format = 1;

    /// <summary>SHA-256 of the text with LF line ends, as hex: a checkout that changes line ends edits nothing.</summary>
    public static string HashOf(string text) =>
        Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text.Replace("\r\n", "\n", StringComparison.Ordinal))));

    /// <summary>True when a file of this name was issued with this content.</summary>
    public bool Knows(string name, string hash) => AllFiles().Contains((name, hash));

    /// <summary>Every file that was issued as far as it is remembered, newest first.</summary>
    public IEnumerable<(string Name, string Hash)> AllFiles() => Now.Files().Concat(Before?.Files() ?? []).Concat(LeftOver);

    /// <summary>
    /// The next record. Nodes that were not chosen, and programs that were not asked for, keep what they were issued with; an emit that changes
    /// nothing keeps the issue before.
    /// </summary>
    /// <param name="wanted">The names of all files that this manifest can have.</param>
    public static Issue Next(
        Network network,
        Issue? last,
        ImmutableArray<(NodeFacts Facts, NodeHeader Header)> chosen,
        ImmutableArray<EmittedFile> files,
        IReadOnlySet<string> wanted,
        ImmutableArray<(string Name, string Hash)> leftOver)
    {
        var hashes = files.ToDictionary(file => file.Name, file => file.Hash, StringComparer.Ordinal);
        var nodes = chosen.Select(one => new IssuedNode(
                one.Header.Node, one.Header.Digest, one.Header.Fingerprint,
                [.. one.Facts.Image.Frames.Select(frame => Convert.ToHexString(frame.Bytes.AsSpan()))], one.Header.FileName, hashes[one.Header.FileName]))
            .ToList();
        var ours = network.Nodes.Where(node => !node.IsExternal).Select(node => node.Name).ToHashSet(StringComparer.Ordinal);
        var kept = (last?.Now.Nodes ?? []).Where(node => ours.Contains(node.Name) && nodes.TrueForAll(other => other.Name != node.Name)).ToList();
        var now = new IssuedState(
            [.. nodes.Concat(kept).OrderBy(node => node.Name, StringComparer.Ordinal)],
            [
                .. network.Payloads.Where(payload => payload.HasKnownSize).DistinctBy(payload => payload.Name)
                    .OrderBy(payload => payload.Name, StringComparer.Ordinal).Select(Issued),
            ],
            hashes[EmitSet.ContractFile])
        {
            Others = OthersOf(last, hashes, wanted, [.. nodes.Select(node => node.File)]),
        };
        var isSame = now.IsSameAs(last?.Now);
        return new(network.Name?.Value ?? "", now, isSame ? last!.Before : last?.Now, leftOver);
    }

    private static ImmutableArray<(string Name, string Hash)> OthersOf(
        Issue? last, Dictionary<string, string> hashes, IReadOnlySet<string> wanted, HashSet<string> headers) =>
    [
        .. hashes.Where(file => file.Key != EmitSet.ContractFile && !headers.Contains(file.Key)).Select(file => (Name: file.Key, Hash: file.Value))
            .Concat((last?.Now.Others ?? []).Where(file => wanted.Contains(file.Name) && !hashes.ContainsKey(file.Name)))
            .OrderBy(file => file.Name, StringComparer.Ordinal),
    ];

    private static IssuedPayload Issued(Payload payload) => new(payload.Name, Fingerprint.OfLayout(payload).ToDigest(), Fingerprint.VersionOf(payload));
}
