using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Model;

/// <summary>What was recorded of one node when its header was last emitted. A part that the record lacks is null.</summary>
public sealed record RecordedNode(Place Place, LocatedScalar? Digest, LocatedScalar? Fingerprint, string? File, string? FileHash);

/// <summary>What was recorded of one payload.</summary>
/// <param name="Layout">Digest of its layout.</param>
/// <param name="Version">The constant of its field in the role `version`; null when it had none.</param>
public sealed record RecordedPayload(Place Place, string? Layout, string? Version);

/// <summary>One issue: what all programs of a network were built from.</summary>
public sealed record RecordedState(
    ImmutableDictionary<string, RecordedNode> Nodes, ImmutableDictionary<string, RecordedPayload> Payloads, ImmutableDictionary<string, string> OtherFiles);

/// <summary>`NAME.radio.issued.json`, which `emit` leaves beside a manifest, as far as rules compare the manifest with it.</summary>
/// <param name="Place">The record's first character.</param>
/// <param name="Before">The issue before the last; null when there was none.</param>
/// <param name="LeftOver">Files of nodes that are gone, with the hashes they were issued with.</param>
public sealed record IssuedRecord(Place Place, RecordedState Now, RecordedState? Before, ImmutableDictionary<string, string> LeftOver);
