using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Cli.Files;

/// <summary>`.radiolint.yaml`: what holds for every manifest in a folder and below.</summary>
/// <param name="Baseline">Findings that are known and wait, as a path below the file's folder.</param>
/// <param name="Findings">What is wrong with the file itself.</param>
internal sealed record ProjectFile(RuleSettings Rules, Stated<string>? Baseline, IReadOnlyList<Finding> Findings)
{
    public const string FileName = ".radiolint.yaml";

    public static readonly ProjectFile None = new(RuleSettings.None, null, []);

    private static readonly Key<RuleSettings> RulesKey = new("rules", RulesKeys.Shape, "severities, `allow` and `locked` for every manifest below");
    private static readonly Key<string> BaselineKey = new("baseline", Scalars.Text, "a file of findings that are known and wait");

    private static readonly MapShape<Settings> Shape = new($"`{FileName}`", [RulesKey, BaselineKey], settings => settings);

    /// <summary>
    /// The nearest such file from a manifest's folder upwards: to the folder with `.git`; without one to the folder the command was started
    /// in, if the manifest lies below it, else no further than the manifest's own folder. Null when there is none.
    /// </summary>
    public static string? NearestTo(string folder, string startedIn)
    {
        var top = Upwards(folder).FirstOrDefault(at => Path.Exists(Path.Combine(at, ".git")))
            ?? (RealPath.IsWithin(folder, startedIn) ? startedIn : folder);
        return Upwards(folder)
            .TakeWhile(at => RealPath.IsWithin(at, top))
            .Select(at => Path.Combine(at, FileName))
            .FirstOrDefault(File.Exists);
    }

    public static ProjectFile Read(string name, byte[] bytes)
    {
        var findings = new List<Finding>();
        if (FileText.Decode(name, bytes, findings) is not { } source)
            return None with { Findings = findings };
        var root = TreeReader.Read(source, findings);
        // A file without settings sets nothing; that a manifest may not be empty is another matter.
        if (root is LocatedScalar { IsQuoted: false, Text.Length: 0 } || findings.RemoveAll(finding => finding.Rule == NothingToCheck.Rule) > 0)
            return None;
        if (root is null || !Shape.TryRead(root, findings, out var settings))
            return None with { Findings = findings };
        var rules = settings.Written(RulesKey)?.Value ?? RuleSettings.None;
        findings.AddRange(ReasonlessAllowance.Check(rules));
        findings.AddRange(UnknownRule.Check(rules));
        return new(rules, settings.Written(BaselineKey), findings);
    }

    private static IEnumerable<string> Upwards(string folder)
    {
        for (var at = folder; at is not null; at = Path.GetDirectoryName(at))
            yield return at;
    }
}
