using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL8403: some nodes run the present plan and others do not.</summary>
public static class MixedIssues
{
    public static readonly Descriptor Rule = new(
        "RL8403", Severity.Warning, "Nodes in the field run mixed issues",
        "own rule: every node of a log reports the digest of the present plan, or none does", "0.1");

    // A list that a person reads.
    private const int MostNamed = 12;

    /// <summary>About the first node that is behind; null unless nodes of both kinds have told their digests.</summary>
    public static Finding? Of(IReadOnlyList<(Node Node, BootReport Boot, bool IsPresent)> told)
    {
        var behind = told.Where(one => !one.IsPresent).ToList();
        if (behind.Count == 0 || behind.Count == told.Count)
            return null;
        var first = behind.OrderBy(one => one.Boot.Place.Source.FirstLine).First();
        return new(
            Rule, first.Boot.Place,
            FormattableString.Invariant($"of {told.Count} nodes {behind.Count} still {(behind.Count == 1 ? "runs" : "run")} another plan: {Names(behind.Select(one => one.Node))}; on the present one {(told.Count - behind.Count == 1 ? "is" : "are")} {Names(told.Where(one => one.IsPresent).Select(one => one.Node))}"),
            $"flash {Names(behind.Select(one => one.Node))} next; where the fingerprint differs as well, nodes of the two plans do not hear each other meanwhile")
        {
            NodeNames = ImmutableArray.CreateRange(behind.Select(one => one.Node.Name)),
        };
    }

    private static string Names(IEnumerable<Node> nodes)
    {
        var names = nodes.Select(node => node.Name).OrderBy(name => name, Text.NaturalOrder.Instance).ToList();
        var shown = string.Join(", ", names.Take(MostNamed).Select(name => $"`{name}`"));
        return names.Count > MostNamed ? FormattableString.Invariant($"{shown} and {names.Count - MostNamed} more") : shown;
    }
}
