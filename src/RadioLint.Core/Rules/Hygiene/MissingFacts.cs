using System.Collections.Immutable;
using RadioLint.Findings;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8304: facts that a node does not state, and the rules that wait for them; one finding a node.</summary>
public static class MissingFacts
{
    public static readonly Descriptor Rule = new("RL8304", Severity.Info, "Facts missing for some rules", "own rule: nothing is guessed", "0.1");

    /// <summary>Gathers the notes of waiting rules, node by node, keys in ordinal order.</summary>
    public static IEnumerable<Finding> Gather(IEnumerable<Finding> notes)
    {
        foreach (var node in notes.GroupBy(note => note.Missing!.Node))
        {
            var facts = node.GroupBy(note => note.Missing!.Key, StringComparer.Ordinal).OrderBy(fact => fact.Key, StringComparer.Ordinal)
                .Select(fact => $"`{fact.Key}` ({string.Join(", ", fact.Select(note => note.Rule.Id).Distinct().OrderBy(id => id, StringComparer.Ordinal))})")
                .ToList();
            yield return new(
                Rule, node.Key.NamePlace, $"node `{node.Key.Label}` does not state {string.Join(", ", facts)}",
                $"add the key{(facts.Count == 1 ? "" : "s")}, so that the rule{(facts.Count == 1 ? "" : "s")} in brackets can judge")
            {
                Subject = node.Key,
                NodeNames = node.First().NodeNames,
            };
        }
    }
}
