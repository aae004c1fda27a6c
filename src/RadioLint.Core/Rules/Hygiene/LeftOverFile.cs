using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8205: a file that was issued for a node which is no longer there still lies in the folder.</summary>
public static class LeftOverFile
{
    public static readonly Descriptor Rule = new("RL8205", Severity.Warning, "Output of a node that no longer exists", "own rule: each file of the folder is a node's of the manifest", "0.1");

    public static Finding At(Place file) => new(Rule, file, "no node of the manifest uses this file", "remove it by hand, once no program is built from it");
}
