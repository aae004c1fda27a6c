using System.Globalization;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>A packet that a node tells of.</summary>
/// <param name="Place">Of its bytes.</param>
public sealed record ReportedPacket(string Node, int Pipe, System.Collections.Immutable.ImmutableArray<byte> Bytes, Place Place);

/// <summary>What a log holds, as far as it is about registers.</summary>
public sealed class LogContent
{
    /// <summary>The log as the user named it.</summary>
    public required string Name { get; init; }

    /// <summary>In the order in which they are first heard of.</summary>
    public required IReadOnlyList<ObservedNode> Nodes { get; init; }

    public int Lines { get; init; }

    /// <summary>Reports that were cut or changed on the way.</summary>
    public int Garbled { get; init; }

    /// <summary>The first of them, and what is wrong with it.</summary>
    public (Place Place, string Fault)? FirstGarbled { get; init; }

    /// <summary>Lines longer than <see cref="LogLimits.LongestLine"/>.</summary>
    public int TooLong { get; init; }

    /// <summary>Reports of nodes past <see cref="LogLimits.MostNodes"/>.</summary>
    public int PassedOver { get; init; }

    /// <summary>True when the log goes on after <see cref="LogLimits.MostLines"/>.</summary>
    public bool IsCut { get; init; }

    /// <summary>Packets that nodes tell of.</summary>
    public int Packets { get; init; }

    /// <summary>The listing that names nobody; null when there is none.</summary>
    public ObservedNode? Unnamed => Nodes.FirstOrDefault(node => node.Name.Length == 0);

    /// <summary>The same with other nodes.</summary>
    public LogContent With(IReadOnlyList<ObservedNode> nodes) => new()
    {
        Name = Name, Nodes = nodes, Lines = Lines, Garbled = Garbled, FirstGarbled = FirstGarbled, TooLong = TooLong, PassedOver = PassedOver, IsCut = IsCut,
        Packets = Packets,
    };
}

/// <summary>Reads a log line by line and keeps what it says of registers; memory does not grow with the log.</summary>
/// <param name="name">The log as findings name it.</param>
/// <param name="packet">Called for each packet that a node tells of.</param>
public sealed class LogReader(string name, Action<ReportedPacket>? packet = null)
{
    private readonly List<ObservedNode> nodes = [];
    private readonly Dictionary<string, ObservedNode> byName = new(StringComparer.Ordinal);
    private readonly PlainListings plain = new(name);
    private (Place Place, string Fault)? firstGarbled;
    private int lines, garbled, tooLong, passedOver, packets;
    private bool isCut;

    /// <summary>How many registers have come so far; for those who wait for a live port.</summary>
    public int Registers { get; private set; }

    /// <summary>True once a node, or every node heard of, has told a whole listing.</summary>
    public bool HasListingOf(string? node) => node is null ? nodes.Count > 0 && nodes.TrueForAll(IsWhole) : byName.TryGetValue(node, out var one) && IsWhole(one);

    private static bool IsWhole(ObservedNode node) => node.Last?.IsComplete is true;

    /// <summary>Takes the next line. False when no further one is wanted.</summary>
    public bool Add(LogLine line)
    {
        if (lines == LogLimits.MostLines)
        {
            isCut = true;
            return false;
        }
        lines++;
        if (line.IsTooLong)
            tooLong++;
        else if (ReportText.IsIn(line.Text))
            Add(new SourceText(name, line.Text, line.Number));
        // Once a report of a register has come, other listings do not count.
        else if (Registers == 0)
            plain.Add(line);
        return true;
    }

    /// <summary>All that was read. Listings of other programs count only in a log without reports of registers.</summary>
    public LogContent End()
    {
        nodes.ForEach(node => node.Close());
        if (Registers == 0)
            AddPlain();
        return new()
        {
            Name = name, Nodes = nodes, Lines = lines, Garbled = garbled, FirstGarbled = firstGarbled, TooLong = tooLong, PassedOver = passedOver,
            IsCut = isCut, Packets = packets,
        };
    }

    // They are the only node's that has said who it is, else somebody's without a name.
    private void AddPlain()
    {
        foreach (var listing in plain.End())
        {
            if (nodes.Count == 0)
                nodes.Add(new("", listing.Place));
            if (nodes.Count == 1)
                nodes[0].Add(listing);
        }
    }

    private void Add(SourceText line)
    {
        foreach (var (report, place, fault) in ReportText.In(line))
        {
            if (report is null)
                Garble(place, fault);
            else if (NodeOf(report) is not { } node)
                passedOver++;
            else if (!Take(report, node))
                Garble(place, $"`{report.Kind}` is told in another form");
        }
    }

    private ObservedNode? NodeOf(ReportText report)
    {
        if (byName.TryGetValue(report.Node, out var known))
            return known;
        if (byName.Count == LogLimits.MostNodes)
            return null;
        var node = new ObservedNode(report.Node, report.Place);
        byName.Add(report.Node, node);
        nodes.Add(node);
        return node;
    }

    // Kinds that say nothing of registers, and those of later versions, are passed over.
    private bool Take(ReportText report, ObservedNode node) => (report.Kind, report.Fields.Count) switch
    {
        ("boot", 2) => TakeBoot(report.Fields, node),
        ("reg", 2) => TakeRegister(report.Fields, node),
        ("end", 1) => TakeEnd(report.Fields, node),
        ("rx", 2) => TakePacket(report, node),
        ("boot" or "reg" or "end" or "rx", _) => false,
        _ => true,
    };

    private static bool TakeBoot(IReadOnlyList<ReportWord> fields, ObservedNode node)
    {
        if (Hex.Read(fields[0].Text)?.Length != 4 || Hex.Read(fields[1].Text)?.Length != 4)
            return false;
        node.Add(new BootReport(fields[0].Text.ToUpperInvariant(), fields[1].Text.ToUpperInvariant(), fields[1].Place));
        return true;
    }

    private bool TakeRegister(IReadOnlyList<ReportWord> fields, ObservedNode node)
    {
        if (Hex.Read(fields[0].Text) is not { Length: 1 } address || Hex.Read(fields[1].Text) is not { Length: <= Model.Address.Widest } bytes || address[0] >= RegisterMap.End)
            return false;
        Registers++;
        node.Add(new ListedRegister(address[0], bytes, fields[1].Place));
        return true;
    }

    private static bool TakeEnd(IReadOnlyList<ReportWord> fields, ObservedNode node)
    {
        if (!int.TryParse(fields[0].Text, NumberStyles.None, CultureInfo.InvariantCulture, out var count))
            return false;
        node.End(count);
        return true;
    }

    private bool TakePacket(ReportText report, ObservedNode node)
    {
        if (report.Fields[0].Text is not [>= '0' and <= '5' and var pipe] || Hex.Read(report.Fields[1].Text) is not { Length: <= 32 } bytes)
            return false;
        packets++;
        packet?.Invoke(new(node.Name, pipe - '0', bytes, report.Fields[1].Place));
        return true;
    }

    private void Garble(Place place, string fault)
    {
        garbled++;
        firstGarbled ??= (place, fault);
    }
}
