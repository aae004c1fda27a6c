using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL8206: a node was built from something else than the manifest as it stands.</summary>
public static class OtherConfiguration
{
    public static readonly Descriptor Rule = new(
        "RL8206", Severity.Error, "Node reports another configuration than the manifest's",
        "the digest is equal exactly when frame table, pins, links and payloads are (docs/firmware.md)", "0.1");

    /// <summary>About the digest that a node has told when it started.</summary>
    /// <param name="planned">The digest of the manifest.</param>
    /// <param name="isOtherNetwork">True when the fingerprint is another as well.</param>
    /// <param name="issue">What the record says about the reported digest; null when it does not know it.</param>
    /// <param name="changed">Registers that differ between that issue and the plan, by their fields.</param>
    public static Finding At(Node node, BootReport boot, string planned, bool isOtherNetwork, IssuedImage? issue, IReadOnlyList<string> changed)
    {
        var what = issue is null ? "; the record of issues does not know it"
            : changed.Count == 0 ? "; that is an earlier issue, whose registers are the same: pins, links or payloads have changed since"
            : $"; that is an earlier issue, since when has changed: {string.Join("; ", changed)}";
        var air = isOtherNetwork ? ", and another fingerprint, so it does not understand nodes of this manifest" : "";
        return new(Rule, boot.Place, $"`{node.Name}` reports digest {boot.Digest}, and the manifest gives {planned}{air}{what}", "write the headers anew (`radiolint emit`), build and flash this node, or go back to the manifest that it was built from")
        {
            Subject = node,
            NodeNames = node.Name == node.Entry ? ImmutableArray.Create(node.Name) : ImmutableArray.Create(node.Name, node.Entry),
            Related = ImmutableArray.Create(new RelatedPlace(node.NamePlace, $"`{node.Name}` is planned here")),
        };
    }
}
