using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Findings;

/// <summary>From all that was noticed to what is reported: one finding a cause, at the severity that the user has set, in file order.</summary>
internal static class Verdict
{
    /// <param name="whole">The network when all rules have looked: then an `allow` entry without a finding is idle.</param>
    public static ImmutableArray<Finding> Settle(List<Finding> noticed, RuleSettings rules, CheckOptions options, Network? whole)
    {
        var locked = LockedRule.Of(rules, options.FolderRules);
        var severities = Severities(rules, options, locked);
        var allowances = rules.Allowances.AddRange(options.FolderRules.Allowances).RemoveAll(allowance => allowance.Rule is { } rule && locked.Contains(rule.Value));
        var used = new HashSet<Allowance>();
        var told = OneForEachPlace(WithoutSilenced(noticed)).FindAll(finding => !IsAllowed(finding, allowances, options.Today, used));
        if (whole is not null)
        {
            // Those of a folder's file may be for another manifest; those that have ended or are locked are told of as such.
            told.AddRange(IdleAllowance.Check(rules.Allowances.Where(one => !used.Contains(one) && allowances.Contains(one) && !ExpiredAllowance.HasEnded(one, options.Today) && !IsForOthers(one, whole))));
        }
        return ImmutableArray.CreateRange(told
            .Select(finding => finding.Rule.IsFixed || !severities.TryGetValue(finding.Rule.Id, out var severity)
                ? finding
                : finding with { Severity = severity })
            .Where(finding => finding.Severity is not Severity.Silent)
            .OrderBy(finding => finding.Place.Source.Name, StringComparer.Ordinal)
            .ThenBy(finding => finding.Place.Source.FirstLine)
            .ThenBy(finding => finding.Place.Start)
            .ThenBy(finding => finding.Rule.Id, StringComparer.Ordinal)
            .ThenBy(finding => finding.Message, StringComparer.Ordinal));
    }

    // What it allows may be found where the other networks of the site are at hand.
    private static bool IsForOthers(Allowance allowance, Network network) =>
        network is { Site: not null, AtSite.IsEmpty: true } && allowance.Rule is { } rule && Rules.Catalogue.Find(rule.Value) is { ComparesNetworks: true };

    // Every entry that allows it counts as used, not the first alone.
    private static bool IsAllowed(Finding finding, ImmutableArray<Allowance> allowances, DateTime? today, HashSet<Allowance> used)
    {
        var isAllowed = false;
        foreach (var allowance in allowances)
        {
            if (!Allows(allowance, finding, today))
                continue;
            used.Add(allowance);
            isAllowed = true;
        }
        return isAllowed;
    }

    // Weakest first: the folder's file, the manifest, the command line.
    private static Dictionary<string, Severity> Severities(RuleSettings rules, CheckOptions options, ImmutableHashSet<string> locked)
    {
        var severities = new Dictionary<string, Severity>(StringComparer.Ordinal);
        foreach (var setting in options.FolderRules.Severities.Concat(rules.Severities).Where(setting => !locked.Contains(setting.Rule.Text) || !LockedRule.IsLower(setting)))
            severities[setting.Rule.Text] = setting.Severity.Value;
        foreach (var id in options.Severities.Keys)
            severities[id] = options.Severities[id];
        return severities;
    }

    private static IEnumerable<Finding> WithoutSilenced(List<Finding> findings)
    {
        var quiet = new HashSet<(string Rule, object Subject)>();
        foreach (var finding in findings)
        {
            foreach (var silenced in finding.Rule.Silences)
                quiet.Add((silenced, SubjectOf(finding)));
        }
        return quiet.Count == 0 ? findings : findings.Where(finding => !quiet.Contains((finding.Rule.Id, SubjectOf(finding))));
    }

    private static object SubjectOf(Finding finding) => finding.Subject ?? finding.Place;

    // A fault of a group, or of `all-nodes`, is found at many nodes and stands at one place; of several the heaviest is told, the first of equals.
    private static List<Finding> OneForEachPlace(IEnumerable<Finding> findings)
    {
        var told = new List<Finding>();
        var places = new Dictionary<(string Rule, Place Place, string Related), int>();
        foreach (var finding in findings)
        {
            var key = (finding.Rule.Id, finding.Place, string.Join(" ", finding.Related.Select(related => FormattableString.Invariant($"{related.Place.Source.Name}:{related.Place.Start}"))));
            if (!places.TryGetValue(key, out var at))
            {
                places.Add(key, told.Count);
                told.Add(finding);
            }
            else if (finding.Severity > told[at].Severity)
            {
                told[at] = finding;
            }
        }
        return told;
    }

    private static bool Allows(Allowance allowance, Finding finding, DateTime? today)
    {
        if (finding.Rule.IsFixed || !ReasonlessAllowance.HasReason(allowance) || allowance.Rule?.Value != finding.Rule.Id)
            return false;
        if (ExpiredAllowance.HasEnded(allowance, today))
            return false;
        return (allowance.Node is null || finding.NodeNames.Contains(allowance.Node.Value, StringComparer.Ordinal))
            && (allowance.Link is null || string.Equals(allowance.Link.Value, finding.LinkName, StringComparison.Ordinal));
    }
}
