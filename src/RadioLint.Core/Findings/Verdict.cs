using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Findings;

/// <summary>From all that was noticed to what is reported: one finding a cause, at the severity that the user has set, in file order.</summary>
internal static class Verdict
{
    public static ImmutableArray<Finding> Settle(List<Finding> noticed, RuleSettings rules, CheckOptions options)
    {
        var severities = Severities(rules, options);
        var allowances = rules.Allowances.AddRange(options.FolderRules.Allowances);
        return ImmutableArray.CreateRange(
            OneForEachPlace(WithoutSilenced(noticed))
                .Where(finding => !allowances.Any(allowance => Allows(allowance, finding, options.Today)))
                .Select(finding => finding.Rule.IsFixed || !severities.TryGetValue(finding.Rule.Id, out var severity)
                    ? finding
                    : finding with { Severity = severity })
                .Where(finding => finding.Severity is not Severity.Silent)
                .OrderBy(finding => finding.Place.Source.Name, StringComparer.Ordinal)
                .ThenBy(finding => finding.Place.Start)
                .ThenBy(finding => finding.Rule.Id, StringComparer.Ordinal)
                .ThenBy(finding => finding.Message, StringComparer.Ordinal));
    }

    // Weakest first: the folder's file, the manifest, the command line.
    private static Dictionary<string, Severity> Severities(RuleSettings rules, CheckOptions options)
    {
        var severities = new Dictionary<string, Severity>(StringComparer.Ordinal);
        foreach (var setting in options.FolderRules.Severities.Concat(rules.Severities))
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
            var key = (finding.Rule.Id, finding.Place, string.Join(" ", finding.Related.Select(related => FormattableString.Invariant($"{related.Place.Start}"))));
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
        if (allowance.Until is { } until && today > until.Value)
            return false;
        return (allowance.Node is null || finding.NodeNames.Contains(allowance.Node.Value, StringComparer.Ordinal))
            && (allowance.Link is null || string.Equals(allowance.Link.Value, finding.LinkName, StringComparison.Ordinal));
    }
}
