using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>Links with their names resolved, and every sender with every receiver as a hop.</summary>
internal sealed class LinkBuilder
{
    /// <summary>The most pairs of sender and receiver: some for each of the nodes that are read.</summary>
    private const int MostHops = 250_000;

    // Looking for the nearest name costs the length of the list each time; after so many slips the list itself is wrong.
    private const int MostSlips = 200;

    private readonly Lazy<string[]> knownNodes;
    private readonly Lazy<string[]> knownPayloads;
    private int slips;
    private readonly Dictionary<string, ImmutableArray<Node>> bySelector = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Payload> payloads = new(StringComparer.Ordinal);
    private readonly List<Finding> findings;

    public LinkBuilder(ImmutableArray<Node> nodes, ImmutableArray<Payload> payloads, List<Finding> findings)
    {
        this.findings = findings;
        foreach (var payload in payloads)
            this.payloads[payload.Name] = payload;
        foreach (var group in nodes.GroupBy(node => node.Entry))
            bySelector[group.Key] = ImmutableArray.CreateRange(group);
        foreach (var node in nodes)
            bySelector[node.Name] = ImmutableArray.Create(node);
        knownNodes = new(() => [.. bySelector.Keys.OrderBy(known => known, NaturalOrder.Instance)]);
        knownPayloads = new(() => [.. this.payloads.Keys.OrderBy(name => name, StringComparer.Ordinal)]);
    }

    public (ImmutableArray<Link> Links, ImmutableArray<Hop> Hops) Build(ImmutableArray<Stated<Settings>> written)
    {
        var links = ImmutableArray.CreateBuilder<Link>();
        var hops = ImmutableArray.CreateBuilder<Hop>();
        foreach (var settings in written)
        {
            if (Reading.HasEnough(findings, settings.Place))
                break;
            if (One(settings.Value) is not { } link)
                continue;
            links.Add(link);
            if (hops.Count + (link.From.Length * (long)link.To.Length) > MostHops)
            {
                findings.Add(WrongType.Because(
                    link.Place, FormattableString.Invariant($"the links up to this one have more than {MostHops} pairs of sender and receiver; from here on they are not read"),
                    "split the network"));
                break;
            }
            AddHops(link, hops);
        }
        return (links.ToImmutable(), hops.ToImmutable());
    }

    private Link? One(Settings settings)
    {
        var (from, to) = (settings.Written(LinkKeys.From), settings.Written(LinkKeys.To));
        if (from is null || to is null)
            return null;
        var payloadName = settings.Written(LinkKeys.Payload);
        Payload? payload = null;
        if (payloadName is not null && !payloads.TryGetValue(payloadName.Value, out payload))
            findings.Add(UndefinedReference.At(payloadName.Place, payloadName.Value, "payload", Known(knownPayloads)));
        var (senders, receivers) = (Nodes(from), Nodes(to));
        if (senders.Length > 1 && receivers.Length > 1)
        {
            findings.Add(WrongType.At(to.Place, "a second group", "a single node: only one side of a link may be several nodes"));
            return null;
        }
        foreach (var relay in settings.Written(LinkKeys.Via)?.Value ?? ImmutableArray<Stated<string>>.Empty)
            _ = Selected(relay);
        return new()
        {
            Place = settings.Place,
            FromText = string.Join(", ", from.Value.Select(name => name.Value)),
            ToText = string.Join(", ", to.Value.Select(name => name.Value)),
            FromPlace = from.Place,
            ToPlace = to.Place,
            From = senders,
            To = receivers,
            PayloadName = payloadName,
            Payload = payload,
            Every = settings.Written(LinkKeys.Every),
            Jitter = settings.Written(LinkKeys.JitterKey),
            Offset = settings.Written(LinkKeys.OffsetKey),
            Events = settings.Written(LinkKeys.Events),
            Spacing = settings.Written(LinkKeys.Spacing),
            RidesBack = settings.Get(LinkKeys.With),
            Acknowledge = settings.Written(LinkKeys.Acknowledge),
            Broadcast = settings.Get(LinkKeys.Broadcast),
            MustArrive = settings.Get(LinkKeys.MustArrive),
            Within = settings.Written(LinkKeys.Within),
            LongestGap = settings.Written(LinkKeys.LongestGap),
            Message = settings.Written(LinkKeys.Message),
            Address = settings.Written(LinkKeys.Address),
            Pipe = settings.Written(LinkKeys.Pipe),
            Via = settings.Written(LinkKeys.Via)?.Value ?? ImmutableArray<Stated<string>>.Empty,
            Distance = settings.Written(LinkKeys.Distance),
            Through = settings.Written(LinkKeys.Through)?.Value ?? ImmutableArray<Stated<Obstacle>>.Empty,
            Setting = settings.Written(LinkKeys.SettingKey),
        };
    }

    private ImmutableArray<Node> Nodes(Stated<ImmutableArray<Stated<string>>> names)
    {
        if (names.Value.Length == 1)
            return Selected(names.Value[0]);
        var nodes = new List<Node>();
        var seen = new HashSet<Node>();
        foreach (var name in names.Value)
        {
            foreach (var node in Selected(name))
            {
                if (seen.Add(node))
                    nodes.Add(node);
            }
        }
        return ImmutableArray.CreateRange(nodes);
    }

    /// <summary>The nodes that a name means, of a node, a group, or `group-3..7`; none, with a finding, when it means none.</summary>
    public ImmutableArray<Node> Selected(Stated<string> name)
    {
        if (bySelector.TryGetValue(name.Value, out var nodes))
            return nodes;
        var dash = name.Value.LastIndexOf('-');
        if (dash > 0 && NodeRange.TryParse(name.Value.Substring(dash + 1), out var first, out var last)
            && bySelector.TryGetValue(name.Value.Substring(0, dash), out var group))
        {
            var chosen = group.Where(node => Member(node, first, last)).ToList();
            if (chosen.Count == last - first + 1)
                return ImmutableArray.CreateRange(chosen);
        }
        findings.Add(UndefinedReference.At(name.Place, name.Value, "node", Known(knownNodes)));
        return ImmutableArray<Node>.Empty;
    }

    private string[] Known(Lazy<string[]> names) => ++slips > MostSlips ? [] : names.Value;

    private static bool Member(Node node, int first, int last) =>
        node.Name.Length > node.Entry.Length
        && NodeRange.TryParse($"{node.Name.Substring(node.Entry.Length + 1)}..{node.Name.Substring(node.Entry.Length + 1)}", out var number, out _)
        && number >= first && number <= last;

    private void AddHops(Link link, ImmutableArray<Hop>.Builder hops)
    {
        var spoken = new HashSet<(object, object)>();
        foreach (var sender in link.From)
        {
            foreach (var receiver in link.To)
            {
                if (sender.Equals(receiver))
                    findings.Add(WrongType.At(link.Place, $"a link from `{sender.Name}` to itself", "a link between two nodes"));
                else
                    hops.Add(new() { Link = link, Sender = sender, Receiver = receiver, SpeaksForGroup = spoken.Add((sender.Kind, receiver.Kind)) });
            }
        }
    }
}
