using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8105: a rule that the project locks is allowed or lowered; neither has an effect.</summary>
public static class LockedRule
{
    public static readonly Descriptor Rule = new("RL8105", Severity.Error, "Suppression of a rule that is locked", "own rule: what `locked` lists is neither allowed nor lowered", "0.1");

    /// <summary>The rules that are locked here or in the folder's file.</summary>
    public static ImmutableHashSet<string> Of(RuleSettings rules, RuleSettings folder) =>
        rules.Locked.Concat(folder.Locked).Select(entry => entry.Value).ToImmutableHashSet(StringComparer.Ordinal);

    public static IEnumerable<Finding> Check(RuleSettings rules, ImmutableHashSet<string> locked)
    {
        foreach (var setting in rules.Severities.Where(setting => locked.Contains(setting.Rule.Text) && IsLower(setting)))
            yield return new(Rule, setting.Severity.Place, $"{setting.Rule.Text} is locked, so it cannot be lowered", "remove the line, or have the lock removed");
        foreach (var allowance in rules.Allowances.Where(allowance => allowance.Rule is { } rule && locked.Contains(rule.Value)))
            yield return new(Rule, allowance.Place, $"{allowance.Rule!.Value} is locked, so the `allow` entry suppresses nothing", "mend what it would allow, or have the lock removed");
    }

    /// <summary>True when a setting weighs less than the rule does by itself.</summary>
    public static bool IsLower(SeveritySetting setting) => Catalogue.Find(setting.Rule.Text) is { } rule && setting.Severity.Value < rule.Severity;
}
