using System.Collections.Immutable;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Cli.Emit;

/// <summary>One run of `emit`: renders, compares with what is on disk and with what was issued, and writes what may be written.</summary>
public static class EmitRun
{
    /// <summary>
    /// Writes the headers of a network that has no errors, and `NAME.radio.issued.json` beside the manifest. Nothing is written at
    /// all when a finding says that a file cannot be made, or when a file was edited by hand and <see cref="EmitOptions.Force"/> is off.
    /// </summary>
    /// <exception cref="IOException">A folder or file cannot be read or written.</exception>
    /// <exception cref="UnauthorizedAccessException">The same, for want of permission.</exception>
    public static EmitReport Execute(Network network, EmitOptions options)
    {
        var folder = new OutputFolder(options.Out);
        var record = IssueFile.NameFor(options.Manifest);
        var recordText = OutputFolder.ReadText(record);
        var (last, fault) = recordText is null ? (null, null) : IssueFile.Read(recordText);
        if (fault is not null && !options.Force)
            return new() { Findings = [BrokenRecord(record, recordText!, fault)] };

        var used = new SortedSet<string>(StringComparer.Ordinal);
        var set = EmitSet.Of(network, new()
        {
            Nodes = options.Nodes,
            Programs = options.Programs,
            Template = name => ReadTemplate(options, name, used),
            Issued = last,
            OnDisk = folder.Read,
        });
        var report = new EmitReport
        {
            Findings = set.Findings,
            UnknownNodes = [.. set.UnknownNodes.Select(name => (name, Nearest.To(name, NamesOf(network))))],
            Unchanged = Paths(folder, set, FileState.Equal),
            LeftOver = [.. set.LeftOver.Select(folder.PathOf)],
        };
        if (set.Issue is null || !set.UnknownNodes.IsEmpty)
            return report;

        if (OfOtherNetworks(network, folder, set, record).ToImmutableArray() is { IsEmpty: false } shared)
            return report with { Findings = shared };

        var edited = options.Force ? [] : Paths(folder, set, FileState.Edited);
        var changing = set.Files.Where(file => file.State is FileState.New or FileState.Stale || (options.Force && file.State is FileState.Edited)).ToList();
        ImmutableArray<string> paths = [.. changing.Select(file => folder.PathOf(file.Name)).Order(StringComparer.Ordinal)];
        var recordNow = IssueFile.Write(set.Issue);
        if (options.CheckOnly || !edited.IsEmpty)
        {
            // A record that was not committed with its headers is out of date as well.
            var isRecordStale = recordText != recordNow;
            report = report with { Edited = edited, Stale = isRecordStale ? [.. paths, record.Replace('\\', '/')] : paths };
            return report with { OfFiles = [.. new FileFindings(network, last, set.Issue).Of(report, options.CheckOnly ? report.Stale : [])] };
        }

        // The record first: if writing stops half-way, the files that are still old are known as issued before.
        OutputFolder.Replace(record, recordNow);
        foreach (var file in changing)
            folder.Write(file.Name, file.Text);
        WriteLists(options, [.. set.Files.Select(file => folder.PathOf(file.Name))], record.Replace('\\', '/'), used);
        return report with { Written = paths };
    }

    private static void WriteLists(EmitOptions options, IReadOnlyList<string> headers, string record, IEnumerable<string> templates)
    {
        var sources = options.AlsoRead.Append(options.Manifest).Concat(templates.Select(name => TemplatePath(options, name))).Distinct(StringComparer.Ordinal).ToList();
        if (options.Depfile is { } depfile)
            OutputFolder.Replace(depfile, Depfile.Text(headers, sources));
        if (options.MadeList is { } made)
            OutputFolder.Replace(made, Depfile.Lines([.. headers, record]));
        if (options.ReadList is { } read)
            OutputFolder.Replace(read, Depfile.Lines(sources));
    }

    private static ImmutableArray<string> Paths(OutputFolder folder, EmitSet set, FileState state) =>
        [.. set.Files.Where(file => file.State == state).Select(file => folder.PathOf(file.Name)).Order(StringComparer.Ordinal)];

    // A file that we did not issue may be another manifest's of the same folder, whose node has the same name.
    private static IEnumerable<Finding> OfOtherNetworks(Network network, OutputFolder folder, EmitSet set, string record)
    {
        var unknown = set.Files.Where(file => file.State is FileState.Edited && file.Name != EmitSet.ContractFile).ToList();
        if (unknown.Count == 0)
            yield break;
        var others = OutputFolder.Beside(record, "*.radio.issued.json").Select(other => IssueFile.Read(OutputFolder.ReadText(other) ?? "").Issue).OfType<Issue>().ToList();
        foreach (var file in unknown)
        {
            var hash = Issue.HashOf(folder.Read(file.Name) ?? "");
            if (others.Find(other => other.Knows(file.Name, hash)) is { } owner
                && network.Nodes.FirstOrDefault(node => NodeHeader.FileNameOf(C.Identifier(node.Name)) == file.Name) is { } node)
            {
                yield return SameOutputFile.BetweenNetworks(node.NamePlace, node.Name, file.Name, owner.Network);
            }
        }
    }

    private static IEnumerable<string> NamesOf(Network network) =>
        network.Nodes.SelectMany(node => new[] { node.Entry, node.Name }).Distinct(StringComparer.Ordinal);

    private static string? ReadTemplate(EmitOptions options, string name, SortedSet<string> used)
    {
        if (options.Templates is null || OutputFolder.ReadText(TemplatePath(options, name)) is not { } text)
            return null;
        used.Add(name);
        return text;
    }

    private static string TemplatePath(EmitOptions options, string name) => $"{options.Templates!.Replace('\\', '/').TrimEnd('/')}/{name}";

    private static Finding BrokenRecord(string record, string text, string fault) =>
        new(SyntaxError.Rule, new(new SourceText(record.Replace('\\', '/'), text), 0, Math.Min(1, text.Length)), fault,
            "restore the file from version control, or emit with `--force`, which takes every header for one that may be overwritten");
}
