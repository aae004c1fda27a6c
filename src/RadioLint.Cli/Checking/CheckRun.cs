using System.Collections.Immutable;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Cli.Checking;

/// <summary>What is asked for besides the manifests.</summary>
/// <param name="Today">The day that `until` is compared with.</param>
/// <param name="Severities">By rule ID, from the command line.</param>
internal sealed record CheckTerms(DateTime Today, ImmutableDictionary<string, Severity> Severities);

/// <summary>How much was looked at.</summary>
internal readonly record struct Extent(int Networks, int Nodes, int Links, int Rules)
{
    public Extent With(Network network) => this with
    {
        Networks = Networks + 1,
        Nodes = Nodes + network.Nodes.Length,
        Links = Links + network.Links.Length,
    };
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
    public string NameOf(Finding finding) => names.Value[finding];

    private sealed class Same : IEqualityComparer<Finding>
    {
        public static readonly Same Instance = new();

        public bool Equals(Finding? x, Finding? y) => ReferenceEquals(x, y);

        public int GetHashCode(Finding obj) => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(obj);
    }

    public int Count(Severity severity) => Findings.Count(finding => finding.Severity == severity);
}

/// <summary>Reads manifests with what belongs to them, and checks them one after the other; one that cannot be read does not stop the others.</summary>
internal sealed class CheckRun(CheckTerms terms, Surroundings around)
{
    private readonly Dictionary<string, ProjectFile> projects = new(StringComparer.Ordinal);
    private readonly HashSet<(string Rule, string File, int Start, int Length, string Message)> seen = [];
    private readonly ImmutableArray<Finding>.Builder findings = ImmutableArray.CreateBuilder<Finding>();
    private readonly List<Unread> unread = [];
    private readonly List<string> alsoRead = [];
    private readonly SortedSet<string> baselines = new(StringComparer.Ordinal);
    private Extent extent = new(0, 0, 0, RadioLint.Rules.Catalogue.OfManifests.Length);
    private int unreadable;

    /// <summary>Files that manifests were judged by or took something from, as findings name them.</summary>
    public IReadOnlyList<string> AlsoRead => alsoRead;

    /// <summary>Baselines that the folders' `.radiolint.yaml` name, as full paths.</summary>
    public IReadOnlyCollection<string> Baselines => baselines;

    /// <summary>Checks one manifest; what is found joins the outcome. Null when the file cannot be read.</summary>
    public (byte[] Bytes, CheckResult Result)? Check(ManifestFile file)
    {
        return Bytes(file) is { } bytes ? (bytes, Check(file, bytes)) : null;
    }

    /// <summary>A manifest's bytes; null when it cannot be read.</summary>
    public byte[]? Bytes(ManifestFile file) => file.Path is { } path ? Read(file.Name, path) : BoundedReader.Read(around.Input);

    /// <summary>Checks a manifest whose bytes are at hand; what is found joins the outcome.</summary>
    public CheckResult Check(ManifestFile file, byte[] bytes)
    {
        var project = ProjectOf(file);
        var result = Linter.Check(file.Name, bytes, new()
        {
            Today = terms.Today,
            FolderRules = project.Rules,
            Severities = terms.Severities,
            Include = new IncludeReader(file, unread, alsoRead).Read,
            Record = RecordOf(file),
        });
        foreach (var finding in result.Findings)
            Add(finding);
        if (result.Network is { } network)
            extent = extent.With(network);
        else
            unreadable++;
        return result;
    }

    /// <summary>All that was found so far.</summary>
    /// <param name="notFound">What could not be read while looking for manifests.</param>
    public CheckOutcome Outcome(IEnumerable<Unread> notFound) => new(findings.ToImmutable(), extent, unreadable, [.. notFound, .. unread]);

    private ProjectFile ProjectOf(ManifestFile file)
    {
        if (ProjectFile.NearestTo(file.Folder, around.Folder) is not { } path)
            return ProjectFile.None;
        if (projects.TryGetValue(path, out var known))
            return known;
        var shown = file.Path is not null && Path.IsPathRooted(file.Name) ? path : Path.GetRelativePath(around.Folder, path);
        var name = ManifestFile.Slashes(shown);
        var project = Read(name, path) is { } bytes ? ProjectFile.Read(name, bytes) : ProjectFile.None;
        projects.Add(path, project);
        if (project.Baseline is { } baseline)
            baselines.Add(Path.GetFullPath(baseline.Value, Path.GetDirectoryName(path)!));
        alsoRead.Add(name);
        foreach (var finding in project.Findings.Select(Weigh).Where(finding => finding.Severity is not Severity.Silent).OrderBy(finding => finding.Place.Start))
            Add(finding);
        return project;
    }

    // Not among what is also read: `emit` writes it, and a build that waits for it would never be up to date.
    private RecordFile? RecordOf(ManifestFile file)
    {
        if (file.Path is null)
            return null;
        var (name, path) = (IssueFile.NameFor(file.Name), IssueFile.NameFor(file.Path));
        return !File.Exists(path) ? new(name, null) : Read(name, path) is { } bytes ? new(name, bytes) : null;
    }

    private Finding Weigh(Finding finding) =>
        finding.Rule.IsFixed || !terms.Severities.TryGetValue(finding.Rule.Id, out var severity) ? finding : finding with { Severity = severity };

    private void Add(Finding finding)
    {
        var place = finding.Place;
        if (seen.Add((finding.Rule.Id, place.Source.Name, place.Start, place.Length, finding.Message)))
            findings.Add(finding);
    }

    private byte[]? Read(string name, string path)
    {
        try
        {
            return BoundedReader.ReadFile(path);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            unread.Add(new(name, Trouble.Words(fault)));
            return null;
        }
    }
}
