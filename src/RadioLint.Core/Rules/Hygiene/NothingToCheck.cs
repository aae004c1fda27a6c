using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8014: an empty file, or a network without nodes.</summary>
public static class NothingToCheck
{
    public static readonly Descriptor Rule = new(
        "RL8014", Severity.Error, "Nothing to check", "a network has at least one node", "0.1");

    public static Finding EmptyFile(Place place) =>
        new(Rule, place, "the file is empty", "write a manifest; docs/manifest.md section 9 shows the smallest useful one");

    public static Finding NoNodes(Place place) =>
        new(Rule, place, "the network has no nodes", "add `nodes:` with at least one node");
}
