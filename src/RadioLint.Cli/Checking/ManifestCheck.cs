using System.Collections.Immutable;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Cli.Checking;

/// <summary>One manifest's part of a run. It shares nothing with the others, so that many can be worked on at once.</summary>
internal sealed class ManifestCheck(ManifestFile file, CheckTerms terms, Surroundings around)
{
    private CheckOptions options = new();
    private ReadManifest? read;

    public ManifestFile File => file;

    /// <summary>What holds for all manifests of its folder.</summary>
    public ProjectFile Folder { get; set; } = ProjectFile.None;

    /// <summary>What was found in the folder's file, where this manifest is the first that asks for it.</summary>
    public List<Finding> FolderFindings { get; } = [];

    public List<Unread> Unread { get; } = [];

    /// <summary>Files that it was judged by or took something from, as findings name them.</summary>
    public List<string> AlsoRead { get; } = [];

    /// <summary>Full paths of files that it asked for, whether they are there or not.</summary>
    public List<string> Asked { get; } = [];

    /// <summary>Its bytes; null until they are read, and when they cannot be.</summary>
    public byte[]? Bytes { get; set; }

    /// <summary>Null when it cannot be read, and until it is judged.</summary>
    public CheckResult? Result { get; private set; }

    /// <summary>How much it brings; null when there is no network to speak of.</summary>
    public Extent? Extent { get; private set; }

    /// <summary>What other networks of its site must know of it; null when it names none.</summary>
    public SiteNetwork? OfSite { get; private set; }

    /// <summary>True while it can end only with what others of its site bring.</summary>
    public bool Waits => read is not null;

    /// <param name="mend">Gives the bytes to check for those of the file.</param>
    public void ReadBytes(Func<ManifestFile, byte[], byte[]>? mend = null)
    {
        Bytes = file.Path is { } path ? Read(file.Name, path) : BoundedReader.Read(around.Input);
        if (mend is not null && Bytes is not null)
            Bytes = mend(file, Bytes);
    }

    /// <summary>Reads the network off the bytes, and judges it at once unless others of its site have a say.</summary>
    public void Begin()
    {
        if (Bytes is null)
            return;
        options = new()
        {
            Today = terms.Today,
            FolderRules = Folder.Rules,
            Severities = terms.Severities,
            Include = new IncludeReader(file, Unread, AlsoRead, Asked).Read,
            Record = RecordOf(),
            Done = terms.Timings?.Start(),
        };
        read = Linter.Open(file.Name, Bytes, options);
        OfSite = read.Network is { } network ? SiteNetwork.Of(network) : null;
        if (OfSite is null)
            End([]);
    }

    /// <summary>Judges the network.</summary>
    public void End(ImmutableArray<SiteNetwork> others)
    {
        Result = Linter.Judge(read!, options with { AtSite = others });
        Extent = Result.Network is { } network ? default(Extent).With(network) : null;
        read = null;
    }

    /// <summary>Keeps no more than what is told: of many manifests, networks would fill the memory.</summary>
    public void LetGo() => Result = Result is null ? null : Result with { Network = null };

    // Not among what is also read: `emit` writes it, and a build that waits for it would never be up to date.
    private RecordFile? RecordOf()
    {
        if (file.Path is null)
            return null;
        var (name, path) = (IssueFile.NameFor(file.Name), IssueFile.NameFor(file.Path));
        Asked.Add(path);
        return !System.IO.File.Exists(path) ? new(name, null) : Read(name, path) is { } bytes ? new(name, bytes) : null;
    }

    private byte[]? Read(string name, string path)
    {
        try
        {
            return BoundedReader.ReadFile(path);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            Unread.Add(new(name, Trouble.Words(fault)));
            return null;
        }
    }
}
