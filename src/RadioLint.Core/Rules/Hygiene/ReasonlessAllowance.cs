using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8101: an `allow` entry gives no reason; it suppresses nothing.</summary>
public static class ReasonlessAllowance
{
    public static readonly Descriptor Rule = new("RL8101", Severity.Error, "Suppression without a reason", "own rule: a reason is mandatory", "0.1");

    /// <summary>True when the entry says why.</summary>
    public static bool HasReason(Allowance allowance) => allowance.Because is { } because && because.Value.Trim().Length > 0;

    public static IEnumerable<Finding> Check(RuleSettings rules) =>
        rules.Allowances.Where(allowance => !HasReason(allowance)).Select(allowance => new Finding(
            Rule, allowance.Place, $"the `allow` entry for {allowance.Rule?.Value ?? "no rule"} gives no reason, so it suppresses nothing",
            "add `because:` with the reason"));
}
