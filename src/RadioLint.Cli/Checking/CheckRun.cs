using System.Collections.Immutable;
using System.Runtime.ExceptionServices;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Cli.Checking;

/// <summary>What is asked for besides the manifests.</summary>
/// <param name="Today">The day that `until` is compared with.</param>
/// <param name="Severities">By rule ID, from the command line.</param>
internal sealed record CheckTerms(DateTime Today, ImmutableDictionary<string, Severity> Severities)
{
    /// <summary>Where what rules cost is added up; null when nobody asks.</summary>
    public Timings? Timings { get; init; }
}

/// <summary>How much was looked at.</summary>
internal readonly record struct Extent(int Networks, int Nodes, int Links, int Rules)
{
    public Extent With(Network network) => this with
    {
        Networks = Networks + 1,
        Nodes = Nodes + network.Nodes.Length,
        Links = Links + network.Links.Length,
    };

    public Extent And(Extent more) => new(Networks + more.Networks, Nodes + more.Nodes, Links + more.Links, Rules);
}

/// <summary>What a run over some manifests found.</summary>
/// <param name="Findings">File by file in the order asked for; each once, however many manifests share the file that it is in.</param>
/// <param name="Unreadable">Manifests whose faults leave no network to speak of.</param>
internal sealed record CheckOutcome(ImmutableArray<Finding> Findings, Extent Extent, int Unreadable, ImmutableArray<Unread> Unread)
{
    private readonly Lazy<Dictionary<Finding, string>> names = new(() =>
        FindingNames.Of(Findings).ToDictionary(one => one.Finding, one => one.Name, Same.Instance));

    /// <summary>Findings that a baseline knows: told apart, and no reason to fail.</summary>
    public ImmutableArray<Finding> Known { get; init; } = [];

    /// <summary>The name that a finding keeps from run to run, whether it is known or not.</summary>
    public string NameOf(Finding finding) => names.Value.TryGetValue(finding, out var name) ? name : FindingNames.Of([finding]).Single().Name;

    private sealed class Same : IEqualityComparer<Finding>
    {
        public static readonly Same Instance = new();

        public bool Equals(Finding? x, Finding? y) => ReferenceEquals(x, y);

        public int GetHashCode(Finding obj) => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(obj);
    }

    public int Count(Severity severity) => Findings.Count(finding => finding.Severity == severity);
}

/// <summary>Reads manifests with what belongs to them, and checks them; one that cannot be read does not stop the others.</summary>
internal sealed class CheckRun(CheckTerms terms, Surroundings around)
{
    private readonly Dictionary<string, ProjectFile> projects = new(StringComparer.Ordinal);
    private readonly HashSet<(string Rule, string File, int Start, int Length, string Message)> seen = [];
    private readonly ImmutableArray<Finding>.Builder findings = ImmutableArray.CreateBuilder<Finding>();
    private readonly List<Unread> unread = [];
    private readonly List<string> alsoRead = [];
    private readonly List<string> asked = [];
    private readonly List<string> judged = [];
    private readonly SortedSet<string> baselines = new(StringComparer.Ordinal);
    private Extent extent = new(0, 0, 0, RadioLint.Rules.Catalogue.OfManifests.Length);
    private int unreadable;

    /// <summary>Files that manifests were judged by or took something from, as findings name them.</summary>
    public IReadOnlyList<string> AlsoRead => alsoRead;

    /// <summary>Names of all files in which something could have been found.</summary>
    public IEnumerable<string> Judged => judged.Concat(alsoRead);

    /// <summary>Full paths of files that manifests asked for, whether they are there or not.</summary>
    public IReadOnlyList<string> Asked => asked;

    /// <summary>Baselines that the folders' `.radiolint.yaml` name, as full paths.</summary>
    public IReadOnlyCollection<string> Baselines => baselines;

    /// <summary>
    /// Checks manifests, as many at once as there are processors. Those that name one site know of each other. What is found joins the outcome in the
    /// order of the files, whichever is ready first.
    /// </summary>
    /// <param name="mend">Gives the bytes to check for those of a file; called file by file, in their order.</param>
    public void CheckAll(IReadOnlyList<ManifestFile> files, Func<ManifestFile, byte[], byte[]>? mend = null)
    {
        var checks = files.Select(Prepared).ToList();
        foreach (var one in mend is null ? [] : checks)
            one.ReadBytes(mend);
        AtOnce(checks, one =>
        {
            if (mend is null)
                one.ReadBytes();
            one.Begin();
            one.LetGo();
        });
        var sites = checks.Select(one => (Check: one, one.OfSite)).Where(one => one.OfSite is not null)
            .ToLookup(one => one.OfSite!.Site.Value, StringComparer.Ordinal);
        AtOnce(checks.FindAll(one => one.Waits), one =>
        {
            one.End(Others(sites, one));
            one.LetGo();
        });
        foreach (var one in checks)
            Join(one);
    }

    /// <summary>Checks a few manifests and keeps their networks, in their order; those of one site know of each other. Null for one that cannot be read.</summary>
    public IReadOnlyList<CheckResult?> CheckKept(IReadOnlyList<ManifestFile> files)
    {
        var checks = files.Select(Prepared).ToList();
        foreach (var one in checks)
        {
            one.ReadBytes();
            one.Begin();
        }
        var sites = checks.Select(one => (Check: one, one.OfSite)).Where(one => one.OfSite is not null).ToLookup(one => one.OfSite!.Site.Value, StringComparer.Ordinal);
        foreach (var one in checks)
        {
            if (one.Waits)
                one.End(Others(sites, one));
            Join(one);
        }
        return checks.ConvertAll(one => one.Result);
    }

    /// <summary>Checks a manifest whose bytes are at hand, by itself.</summary>
    public CheckResult Check(ManifestFile file, byte[] bytes)
    {
        var one = Prepared(file);
        one.Bytes = bytes;
        return Finish(one)!;
    }

    /// <summary>Checks one manifest by itself; what is found joins the outcome. Null when the file cannot be read.</summary>
    public (byte[] Bytes, CheckResult Result)? Check(ManifestFile file, Func<ManifestFile, byte[], byte[]>? mend = null)
    {
        var one = Prepared(file);
        one.ReadBytes(mend);
        return Finish(one) is { } result ? (one.Bytes!, result) : null;
    }

    /// <summary>What is met after a check of a manifest, judged as that was.</summary>
    public ImmutableArray<Finding> Settle(ManifestFile file, Network network, IEnumerable<Finding> met) =>
        Linter.Settle(met, network, new() { Today = terms.Today, FolderRules = Prepared(file).Folder.Rules, Severities = terms.Severities });

    /// <summary>All that was found so far.</summary>
    /// <param name="notFound">What could not be read while looking for manifests.</param>
    public CheckOutcome Outcome(IEnumerable<Unread> notFound) => new(findings.ToImmutable(), extent, unreadable, [.. notFound, .. unread]);

    private CheckResult? Finish(ManifestCheck one)
    {
        one.Begin();
        if (one.Waits)
            one.End([]);
        Join(one);
        return one.Result;
    }

    private static void AtOnce(List<ManifestCheck> checks, Action<ManifestCheck> work)
    {
        // One is the rule, and the machinery for several takes as long as a small check.
        if (checks.Count == 1)
        {
            work(checks[0]);
            return;
        }
        try
        {
            Parallel.For(0, checks.Count, at => work(checks[at]));
        }
        catch (AggregateException several)
        {
            ExceptionDispatchInfo.Throw(several.InnerExceptions[0]);
        }
    }

    private static ImmutableArray<SiteNetwork> Others(ILookup<string, (ManifestCheck Check, SiteNetwork? OfSite)> sites, ManifestCheck one) =>
        [.. sites[one.OfSite!.Site.Value].Where(other => other.Check != one).Select(other => other.OfSite!)];

    private void Join(ManifestCheck one)
    {
        unread.AddRange(one.Unread);
        alsoRead.AddRange(one.AlsoRead);
        asked.AddRange(one.Asked);
        foreach (var finding in one.FolderFindings.Concat(one.Result?.Findings ?? []))
            Add(finding);
        if (one.Extent is { } more)
        {
            extent = extent.And(more);
            judged.Add(one.File.Name);
        }
        else if (one.Result is not null)
            unreadable++;
    }

    private ManifestCheck Prepared(ManifestFile file)
    {
        var one = new ManifestCheck(file, terms, around);
        if (ProjectFile.NearestTo(file.Folder, around.Folder) is not { } path)
            return one;
        if (projects.TryGetValue(path, out var known))
        {
            one.Folder = known;
            return one;
        }
        var shown = file.Path is not null && Path.IsPathRooted(file.Name) ? path : Path.GetRelativePath(around.Folder, path);
        var name = ManifestFile.Slashes(shown);
        one.Folder = ReadProject(name, path, one.Unread);
        projects.Add(path, one.Folder);
        if (one.Folder.Baseline is { } baseline)
            baselines.Add(Path.GetFullPath(baseline.Value, Path.GetDirectoryName(path)!));
        one.AlsoRead.Add(name);
        one.FolderFindings.AddRange(one.Folder.Findings.Select(Weigh).Where(finding => finding.Severity is not Severity.Silent).OrderBy(finding => finding.Place.Start));
        return one;
    }

    private Finding Weigh(Finding finding) =>
        finding.Rule.IsFixed || !terms.Severities.TryGetValue(finding.Rule.Id, out var severity) ? finding : finding with { Severity = severity };

    private void Add(Finding finding)
    {
        var place = finding.Place;
        if (seen.Add((finding.Rule.Id, place.Source.Name, place.Start, place.Length, finding.Message)))
            findings.Add(finding);
    }

    private static ProjectFile ReadProject(string name, string path, List<Unread> unread)
    {
        try
        {
            return ProjectFile.Read(name, BoundedReader.ReadFile(path));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            unread.Add(new(name, Trouble.Words(fault)));
            return ProjectFile.None;
        }
    }
}
