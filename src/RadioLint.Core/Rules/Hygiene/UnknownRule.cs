using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8102: a severity, an `allow` entry or a lock names a rule that does not exist.</summary>
public static class UnknownRule
{
    public static readonly Descriptor Rule = new("RL8102", Severity.Error, "Suppression of an ID that does not exist", "docs/rules/README.md lists all rules", "0.1");

    public static IEnumerable<Finding> Check(RuleSettings rules)
    {
        var ids = Catalogue.All.Select(rule => rule.Id).ToList();
        // A key stands once: what has a severity already is not proposed for another.
        var free = ids.Except(rules.Severities.Select(setting => setting.Rule.Text), StringComparer.Ordinal).ToList();
        var named = rules.Severities.Select(setting => (setting.Rule.Text, setting.Rule.Place, free))
            .Concat(rules.Allowances.Where(entry => entry.Rule is not null).Select(entry => (entry.Rule!.Value, entry.Rule.Place, ids)))
            .Concat(rules.Locked.Select(entry => (entry.Value, entry.Place, ids)));
        foreach (var (id, place, known) in named)
        {
            if (ids.Contains(id, StringComparer.Ordinal))
                continue;
            var nearest = Nearest.To(id, known);
            yield return new(Rule, place, $"there is no rule `{id}`", nearest is null ? "use an ID from docs/rules/README.md" : $"write `{nearest}`, or remove the entry")
            {
                Fixes = nearest is null
                    ? ImmutableArray<Fix>.Empty
                    : ImmutableArray.Create(new Fix(FixGrade.Offered, $"Write `{nearest}`", ImmutableArray.Create(Edit.Value(place, nearest)))),
            };
        }
    }
}
