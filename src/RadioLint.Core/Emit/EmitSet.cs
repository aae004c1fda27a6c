using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>What an emit depends on besides the network. Nothing here reads or writes a file.</summary>
public sealed record EmitRequest
{
    /// <summary>Nodes or groups by name; empty for all.</summary>
    public ImmutableArray<string> Nodes { get; init; } = [];

    /// <summary>Whether programs, hooks and a Makefile are written beside the headers.</summary>
    public bool Programs { get; init; }

    /// <summary>The user's template of a file name, or null for the built-in one.</summary>
    public Func<string, string?> Template { get; init; } = _ => null;

    /// <summary>What was issued before; null when nothing was.</summary>
    public Issue? Issued { get; init; }

    /// <summary>A file's text in the output folder, or null when there is none.</summary>
    public Func<string, string?> OnDisk { get; init; } = _ => null;
}

/// <summary>How a file in the output folder stands to what belongs there.</summary>
public enum FileState
{
    /// <summary>There is none yet.</summary>
    New,

    /// <summary>It holds what it should, line ends aside.</summary>
    Equal,

    /// <summary>It was issued from an earlier manifest.</summary>
    Stale,

    /// <summary>It differs from what was issued, or was never issued.</summary>
    Edited,
}

/// <summary>One file to be.</summary>
public sealed record EmittedFile(string Name, string Text, FileState State)
{
    public string Hash => Issue.HashOf(Text);
}

/// <summary>All files of an emit, and what to write down about them.</summary>
public sealed record EmitSet
{
    /// <summary>The format of the shared contract; raised when headers of the old one no longer fit.</summary>
    public const int Contract = 1;

    /// <summary>The shared contract's file name.</summary>
    public const string ContractFile = "radio_contract.h";

    /// <summary>The link layer's file name.</summary>
    public const string LinkFile = "radio_link.h";

    private const string ContractTemplate = "radio_contract.h.sbn";
    private const string LinkTemplate = "radio_link.h.sbn";
    private const string NodeTemplate = "node_radio.h.sbn";

    // Of programs, the same for all nodes of the network.
    private const string ReportFile = "radio_report.h";
    private const string MakeFile = "Makefile";

    /// <summary>What all share first, then headers in the order of their names, then programs.</summary>
    public ImmutableArray<EmittedFile> Files { get; init; } = [];

    /// <summary>Files that were issued for nodes which are no longer there, and still lie in the folder; in ordinal order.</summary>
    public ImmutableArray<string> LeftOver { get; init; } = [];

    /// <summary>What is issued now; null when something stands in the way.</summary>
    public Issue? Issue { get; init; }

    /// <summary>Names asked for that no node or group has.</summary>
    public ImmutableArray<string> UnknownNodes { get; init; } = [];

    /// <summary>Why files cannot be made; empty when all can.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>Renders every header. Pure: the same network and request give the same bytes.</summary>
    public static EmitSet Of(Network network, EmitRequest request)
    {
        var (headers, faults) = Headers(network);
        var unknown = request.Nodes.Where(name => !network.Nodes.Any(node => IsCalled(node, name))).Distinct(StringComparer.Ordinal);
        if (faults.Count > 0)
            return new() { Findings = Ordered(faults), UnknownNodes = [.. unknown] };

        var renderer = new Renderer(new(request.Template));
        var texts = new List<(string Name, string Text)>();
        void Render(string name, string template, ScriptObject model)
        {
            var (text, wrong) = renderer.Render(template, model);
            faults.AddRange(wrong);
            if (text is not null)
                texts.Add((name, text));
        }

        Render(ContractFile, ContractTemplate, new() { ["contract"] = Contract });
        Render(LinkFile, LinkTemplate, new() { ["contract"] = Contract });
        var chosen = headers.Where(header => request.Nodes.IsEmpty || request.Nodes.Any(name => IsCalled(header.Facts.Node, name))).ToList();
        foreach (var (_, header) in chosen)
            Render(header.FileName, NodeTemplate, header.ToScript());
        ImmutableArray<NodePrograms> programs = [.. headers.Select(one => NodePrograms.Of(one.Facts, one.Header))];
        if (request.Programs)
        {
            Render(ReportFile, ReportFile + ".sbn", new() { ["contract"] = Contract });
            Render(MakeFile, MakeFile + ".sbn", MakeModel(network, programs));
            foreach (var one in programs.Where(one => chosen.Exists(other => other.Header == one.Header)))
            {
                var model = one.ToScript();
                foreach (var (file, template) in one.Files())
                    Render(file, template, model);
            }
        }
        if (faults.Count > 0)
            return new() { Findings = Ordered(faults), UnknownNodes = [.. unknown] };

        ImmutableArray<EmittedFile> files = [.. texts.Select(file => new EmittedFile(file.Name, file.Text, StateOf(file.Name, file.Text, request)))];
        var wanted = Wanted(network, programs);
        var leftOver = LeftOvers(wanted, request);
        return new()
        {
            Files = files,
            LeftOver = [.. leftOver.Select(file => file.Name)],
            Issue = Issue.Next(network, request.Issued, [.. chosen.Select(one => (one.Facts, one.Header))], files, wanted, leftOver),
            UnknownNodes = [.. unknown],
        };
    }

    /// <summary>The header of every node that is ours, in the order of names, or why there is none.</summary>
    public static (ImmutableArray<(NodeFacts Facts, NodeHeader Header)> Headers, List<Finding> Faults) Headers(Network network)
    {
        var (headers, faults) = (ImmutableArray.CreateBuilder<(NodeFacts, NodeHeader)>(), new List<Finding>());
        var numbers = NodeNumbers.Of(network);
        // Most nodes share air and payloads: what comes of them is worked out once.
        var fingerprints = new Dictionary<(int?, DataRate?, int?, int?, bool?, LengthMode?), string>();
        var refusals = new Dictionary<(string, int), ImmutableArray<Finding>>();
        foreach (var node in network.Nodes.Where(node => !node.IsExternal).OrderBy(node => node.Name, NaturalOrder.Instance))
        {
            faults.AddRange(Refusals.OfName(node));
            if (NodeFacts.Of(network, network.Plan.Of(node)) is not { } facts)
            {
                faults.AddRange(Refusals.OfImage(node));
                continue;
            }
            var refused = facts.Payloads.SelectMany(one => Once(refusals, (one.Payload.Name, one.Length), () => [.. PayloadFaults.Of(one.Payload, one.Length)])).ToList();
            faults.AddRange(refused);
            if (refused.Count > 0)
                continue;
            var air = node.Air;
            var fingerprint = Once(
                fingerprints, (air.ChosenChannel, air.ChosenRate, air.AddressWidth?.Value, air.Crc?.Value, air.Acknowledge?.Value, air.PayloadLength?.Value),
                () => Fingerprint.OfNetwork(air, network.Payloads).ToDigest());
            headers.Add((facts, HeaderBuilder.Build(facts, fingerprint, numbers.TryGetValue(node, out var number) ? number : null)));
        }
        faults.AddRange(SharedFiles(headers));
        faults.AddRange(HeaderNames.Clashes(headers));
        return (headers.ToImmutable(), faults);
    }

    private static TValue Once<TKey, TValue>(Dictionary<TKey, TValue> known, TKey key, Func<TValue> make)
        where TKey : notnull
    {
        if (!known.TryGetValue(key, out var value))
            known.Add(key, value = make());
        return value;
    }

    private static IEnumerable<Finding> SharedFiles(IReadOnlyList<(NodeFacts Facts, NodeHeader Header)> headers)
    {
        var writers = new Dictionary<string, Node>(StringComparer.Ordinal);
        foreach (var (facts, header) in headers)
        {
            if (!writers.TryAdd(header.FileName, facts.Node) && writers[header.FileName] is var first)
                yield return SameOutputFile.InNetwork(facts.Node.NamePlace, facts.Node.Name, first.NamePlace, first.Name, header.FileName);
        }
    }

    private static FileState StateOf(string name, string text, EmitRequest request)
    {
        if (request.OnDisk(name) is not { } found)
            return FileState.New;
        var hash = Issue.HashOf(found);
        return hash == Issue.HashOf(text) ? FileState.Equal
            : request.Issued?.Knows(name, hash) ?? false ? FileState.Stale
            : FileState.Edited;
    }

    /// <summary>What the Makefile's template knows.</summary>
    public static ScriptObject MakeModel(Network network, ImmutableArray<NodePrograms> programs) => new()
    {
        ["network"] = C.InComment(network.Name?.Value ?? ""),
        ["manifest"] = programs.IsEmpty ? "" : C.InComment(programs[0].Header.Manifest),
        ["nodes"] = Script.List(programs, one => one.ToMakeScript()),
    };

    private static HashSet<string> Wanted(Network network, ImmutableArray<NodePrograms> programs) =>
        network.Nodes.Where(node => !node.IsExternal).Select(node => NodeHeader.FileNameOf(C.Identifier(node.Name)))
            .Concat(programs.SelectMany(one => one.Files()).Select(one => one.File))
            .Concat([ContractFile, LinkFile, ReportFile, MakeFile]).ToHashSet(StringComparer.Ordinal);

    private static ImmutableArray<(string Name, string Hash)> LeftOvers(HashSet<string> wanted, EmitRequest request) =>
    [
        .. (request.Issued?.AllFiles() ?? []).Where(file => !wanted.Contains(file.Name) && request.OnDisk(file.Name) is not null)
            .DistinctBy(file => file.Name).OrderBy(file => file.Name, StringComparer.Ordinal),
    ];

    private static bool IsCalled(Node node, string name) => node.Name == name || node.Entry == name;

    // One template fault shows once, however many headers it stops; so does one of a group.
    private static ImmutableArray<Finding> Ordered(List<Finding> faults) =>
    [
        .. faults.DistinctBy(fault => (fault.Rule.Id, fault.Place.Source.Name, fault.Place.Start, fault.Message))
            .OrderBy(fault => fault.Place.Source.Name, StringComparer.Ordinal).ThenBy(fault => fault.Place.Start)
            .ThenBy(fault => fault.Rule.Id, StringComparer.Ordinal),
    ];
}
