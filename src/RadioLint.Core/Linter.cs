using System.Collections.Immutable;
using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Rules;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint;

/// <summary>What a check may depend on besides the manifest.</summary>
public sealed record CheckOptions
{
    /// <summary>The day that `until` is compared with. Read once by the caller: nothing here looks at a clock.</summary>
    public DateTime? Today { get; init; }

    /// <summary>An included file's bytes by its path below the manifest's folder; null when there is none.</summary>
    public Func<string, byte[]?> Include { get; init; } = _ => null;

    /// <summary>The record of what was last emitted, beside the manifest; null when the caller cannot look for one.</summary>
    public RecordFile? Record { get; init; }

    /// <summary>The `rules` of the nearest `.radiolint.yaml`.</summary>
    public RuleSettings FolderRules { get; init; } = RuleSettings.None;

    /// <summary>Severities from the command line; they win over all others.</summary>
    public ImmutableDictionary<string, Severity> Severities { get; init; } = ImmutableDictionary<string, Severity>.Empty;

    /// <summary>Other networks of the manifest's site.</summary>
    public ImmutableArray<SiteNetwork> AtSite { get; init; } = ImmutableArray<SiteNetwork>.Empty;

    /// <summary>
    /// Told of each piece of work when it is done, with how many findings it noticed: <see cref="Linter.ReadingWork"/>, each rule's ID, <see cref="Linter.SettlingWork"/>.
    /// For whoever measures: nothing here looks at a clock, and no result depends on it.
    /// </summary>
    public Action<string, int>? Done { get; init; }
}

/// <summary>The record that `emit` keeps beside a manifest.</summary>
/// <param name="Name">As findings name it.</param>
/// <param name="Bytes">Null when there is none.</param>
public sealed record RecordFile(string Name, byte[]? Bytes);

/// <summary>What a check found.</summary>
/// <param name="Findings">In the order of their places.</param>
/// <param name="Network">Null when the manifest could not be read far enough.</param>
public sealed record CheckResult(ImmutableArray<Finding> Findings, Network? Network)
{
    /// <summary>The heaviest finding's severity; Silent when there is none.</summary>
    public Severity Worst => Findings.IsEmpty ? Severity.Silent : Findings.Max(finding => finding.Severity);
}

/// <summary>A manifest between reading and judging.</summary>
/// <param name="Findings">What was noticed while reading; judging adds to it.</param>
/// <param name="Network">Null when it could not be read far enough.</param>
public sealed record ReadManifest(List<Finding> Findings, Network? Network);

/// <summary>The entry point: a manifest in, findings and the network out. Pure: the same input gives the same result.</summary>
public static class Linter
{
    /// <summary>From text to the network, register plan included.</summary>
    public const string ReadingWork = "reading";

    /// <summary>From all that was noticed to what is told: allowances, severities, order.</summary>
    public const string SettlingWork = "settling";

    /// <summary>Checks a manifest given as bytes; faults of encoding and size are findings.</summary>
    public static CheckResult Check(string name, byte[] bytes, CheckOptions? options = null)
    {
        options ??= new();
        return Judge(Open(name, bytes, options), options);
    }

    /// <summary>Checks a manifest given as text.</summary>
    public static CheckResult Check(SourceText source, CheckOptions? options = null)
    {
        options ??= new();
        return Judge(Open(source, [], options), options);
    }

    /// <summary>The first half of a check, for whoever must know all networks of a site before one is judged.</summary>
    public static ReadManifest Open(string name, byte[] bytes, CheckOptions options)
    {
        var findings = new List<Finding>();
        return FileText.Decode(name, bytes, findings) is { } source ? Open(source, findings, options) : new(findings, null);
    }

    /// <summary>The second half. A manifest is judged once: what is read is used up.</summary>
    public static CheckResult Judge(ReadManifest read, CheckOptions options)
    {
        var (findings, network) = (read.Findings, read.Network);
        if (network is not null)
        {
            network.AtSite = options.AtSite;
            network.LacksRecord = options.Record is { Bytes: null };
            network.Record = options.Record is { Name: var name, Bytes: { } bytes } ? new(() => RecordReader.Read(name, bytes)) : null;
            findings.AddRange(Judge(network, options.Done));
        }
        var rules = network?.Rules ?? RuleSettings.None;
        findings.AddRange(ReasonlessAllowance.Check(rules));
        findings.AddRange(UnknownRule.Check(rules));
        findings.AddRange(ExpiredAllowance.Check(rules, options.Today));
        findings.AddRange(LockedRule.Check(rules, LockedRule.Of(rules, options.FolderRules)));
        var told = Verdict.Settle(findings, rules, options, network);
        options.Done?.Invoke(SettlingWork, told.Length);
        return new(told, network);
    }

    /// <summary>Checks a manifest given as text by its own rules alone. Without an options object: its setters are another method to each platform that Core is built for.</summary>
    /// <param name="include">As in <see cref="CheckOptions.Include"/>.</param>
    /// <param name="record">As in <see cref="CheckOptions.Record"/>.</param>
    public static CheckResult Check(string name, string text, Func<string, byte[]?> include, RecordFile? record) =>
        Check(new SourceText(name, text), new CheckOptions { Include = include, Record = record });

    /// <summary>What is met after a check, such as what a folder of generated files shows, with allowances and severities applied as in the check.</summary>
    public static ImmutableArray<Finding> Settle(IEnumerable<Finding> findings, Network network, CheckOptions options) =>
        Verdict.Settle([.. findings], network.Rules, options, whole: null);

    /// <summary>The network as far as the text can be read, judged by no rule; null when it cannot be read far enough.</summary>
    /// <param name="include">As in <see cref="CheckOptions.Include"/>.</param>
    public static Network? Read(SourceText source, Func<string, byte[]?> include)
    {
        var findings = new List<Finding>();
        return FileText.Refused(source, findings) ? null : ManifestReader.Read(source, include, findings);
    }

    private static ReadManifest Open(SourceText source, List<Finding> findings, CheckOptions options)
    {
        var network = FileText.Refused(source, findings) ? null : ManifestReader.Read(source, options.Include, findings);
        options.Done?.Invoke(ReadingWork, findings.Count);
        return new(findings, network);
    }

    private static List<Finding> Judge(Network network, Action<string, int>? done)
    {
        var findings = new List<Finding>();
        var waiting = new List<Finding>();
        foreach (var rule in Catalogue.Rules)
        {
            var before = findings.Count + waiting.Count;
            foreach (var finding in rule.Check(network))
                (finding.Missing is null ? findings : waiting).Add(finding);
            done?.Invoke(rule.Descriptor.Id, findings.Count + waiting.Count - before);
        }
        findings.AddRange(MissingFacts.Gather(waiting));
        return findings;
    }
}
