using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8104: an `allow` entry is past its last day; what it allowed is told again.</summary>
public static class ExpiredAllowance
{
    public static readonly Descriptor Rule = new("RL8104", Severity.Warning, "Suppression past its end date", "own rule: the last day that `until` names", "0.1");

    /// <param name="today">Null where nobody asks for the day: then no entry has ended.</param>
    public static IEnumerable<Finding> Check(RuleSettings rules, DateTime? today) => rules.Allowances
        .Where(allowance => HasEnded(allowance, today))
        .Select(allowance => new Finding(
            Rule, allowance.Until!.Place,
            FormattableString.Invariant($"the `allow` entry for {allowance.Rule?.Value ?? "no rule"} ended on {allowance.Until.Value:yyyy-MM-dd}, {(today!.Value - allowance.Until.Value).Days} day{((today.Value - allowance.Until.Value).Days == 1 ? "" : "s")} ago"),
            "mend what it allowed, or decide anew until when it may stand"));

    public static bool HasEnded(Allowance allowance, DateTime? today) => allowance.Until is { } until && today > until.Value;
}
