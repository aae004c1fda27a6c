using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8204: two nodes, of one manifest or of two, would write the same file; the later one would win without a word.</summary>
public static class SameOutputFile
{
    public static readonly Descriptor Rule = new("RL8204", Severity.Error, "Two nodes write the same output file", "own rule: one file, one node", "0.1");

    public static Finding InNetwork(Place place, string node, Place other, string otherNode, string file) =>
        new(Rule, place, $"nodes `{otherNode}` and `{node}` both write `{file}`", "rename one of the two")
        {
            Related = ImmutableArray.Create(new RelatedPlace(other, $"`{otherNode}` stands here")),
        };

    public static Finding BetweenNetworks(Place place, string node, string file, string network) =>
        new(Rule, place, $"node `{node}` writes `{file}`, which was written for network `{network}`", "give each network a folder of its own with `--out`, or rename the node");
}
