using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8103: an `allow` entry lets nothing stand that is found.</summary>
public static class IdleAllowance
{
    public static readonly Descriptor Rule = new("RL8103", Severity.Warning, "Suppression that suppresses nothing", "own rule: an entry allows a finding that is there", "0.1");

    /// <summary>About entries that nothing was found for.</summary>
    public static IEnumerable<Finding> Check(IEnumerable<Allowance> idle) => idle.Where(IsJudgedHere).Select(allowance =>
    {
        var where = allowance.Node is { } node ? $" at `{node.Value}`" : allowance.Link is { } link ? $" on `{link.Value}`" : "";
        return Catalogue.Find(allowance.Rule!.Value)!.IsFixed
            ? new Finding(Rule, allowance.Place, $"{allowance.Rule.Value} cannot be allowed, so the entry suppresses nothing", "remove the entry")
            : new Finding(Rule, allowance.Place, $"{allowance.Rule.Value} finds nothing{where}, so the entry suppresses nothing", "remove the entry, or correct its node or link");
    });

    // What only the compiler, `emit`, `readback` or `survey` meets may well be found there; reasons and IDs are others' business.
    private static bool IsJudgedHere(Allowance allowance) =>
        ReasonlessAllowance.HasReason(allowance) && allowance.Rule is { } rule && Catalogue.Find(rule.Value) is { } known
        && !Catalogue.OfHostCode.Contains(known) && !Catalogue.OfEmitting.Contains(known) && !Catalogue.OfRuns.Contains(known) && !Catalogue.OfReadback.Contains(known)
        && !Catalogue.OfSurvey.Contains(known);
}
