using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Binding;

/// <summary>Nodes from their entries: a member's own keys, then the entry's, then `all-nodes`, then the defaults.</summary>
internal sealed class NodeBuilder(Place network, Settings? allNodes, Settings? networkAir, BoardLibrary boards, List<Finding> findings)
{
    /// <summary>The most nodes of one network: a hundred times what one channel serves.</summary>
    private const int MostNodes = 100_000;

    private bool isSaid;

    public ImmutableArray<Node> Build(ImmutableArray<Named<Settings>> entries)
    {
        var nodes = ImmutableArray.CreateBuilder<Node>();
        IdentifierClash.Report(entries.Select(entry => entry.Name), findings);
        foreach (var entry in entries)
        {
            if (HasEnough(nodes, entry.Name.Place))
                break;
            var settings = entry.Value.Value;
            if (settings.Has(NodeKeys.OfNode.Each))
                AddGroup(nodes, entry.Name, settings);
            else
                nodes.Add(One(entry.Name.Text, entry.Name.Text, entry.Name.Place, entry.Name.Text, new(null, settings, allNodes)));
        }
        ReportClashesOfMembers(nodes);
        // By part: one step that all nodes take may be none of several parts, and only one is told.
        foreach (var node in nodes.Where(node => node.SpeaksForGroup && node.Power is { IsDefault: false }).OrderBy(node => node.Part?.Name, StringComparer.Ordinal))
            CheckStep(node.Part, node.Power);
        return nodes.ToImmutable();
    }

    private void AddGroup(ImmutableArray<Node>.Builder nodes, LocatedScalar name, Settings settings)
    {
        if (settings.Written(NodeKeys.OfNode.Each) is not { } each)
            return;
        Node? alike = null;
        foreach (var member in each.Value.Members)
        {
            if (HasEnough(nodes, member.Place))
                break;
            var full = $"{name.Text}-{member.Suffix}";
            if (!Names.IsWellFormed(full))
            {
                findings.Add(UnusableName.Form(member.Place, full));
                if (member.Place == each.Place)
                    break; // the rest of a range is no better
                continue;
            }
            if (member.Differences is not null)
            {
                nodes.Add(One(full, name.Text, member.Place, full, new(member.Differences, settings, allNodes)));
                continue;
            }
            var node = alike is null
                ? One(full, name.Text, name.Place, name.Text, new(null, settings, allNodes))
                : alike with { Name = full, SpeaksForGroup = false };
            alike ??= node;
            nodes.Add(node);
        }
    }

    private bool HasEnough(ImmutableArray<Node>.Builder nodes, Place at)
    {
        if (nodes.Count < MostNodes)
            return Reading.HasEnough(findings, at);
        if (nodes.Count == MostNodes && !isSaid)
            findings.Add(WrongType.Because(
                at, FormattableString.Invariant($"the network has more than {MostNodes} nodes; from here on they are not read"), "split the network"));
        isSaid = true;
        return true;
    }

    // `hive` with `each: 1..3` beside a node `hive-1`.
    private void ReportClashesOfMembers(ImmutableArray<Node>.Builder nodes)
    {
        var seen = new Dictionary<string, Node>(StringComparer.Ordinal);
        foreach (var node in nodes)
        {
            if (!seen.TryGetValue(node.Name, out var first))
                seen.Add(node.Name, node);
            else if (node.Entry != first.Entry || node.NamePlace != first.NamePlace)
                findings.Add(UnusableName.SameIdentifier(node.NamePlace, node.Name, first.NamePlace, first.Name, node.Identifier));
        }
    }

    private Node One(string name, string entry, Place namePlace, string label, Layers layers)
    {
        var choice = layers.Pick(keys => keys.Board);
        if (choice is null && !layers.Writes("board"))
            findings.Add(WrongType.Lacks(layers.Entry.Place, "a node", "board", BoardKeys.Choice.Expected));
        var board = choice is null ? null : boards.Resolve(choice);
        var boardPlace = choice?.Place ?? layers.Entry.Place;
        var pins = layers.Pick(keys => keys.Pins)?.Value;
        var spi = layers.Pick(keys => keys.Spi)?.Value;
        var radio = layers.Pick(keys => keys.Radio)?.Value ?? RadioKeys.Default(layers.Entry.Place);
        var part = Known(radio.Part, "radio", () => RadioParts.Names, RadioParts.Find);
        var power = layers.Pick(keys => keys.Power);
        return new()
        {
            Name = name,
            Entry = entry,
            NamePlace = namePlace,
            Place = layers.Entry.Place,
            Label = label,
            Kind = new object(),
            Board = board,
            BoardPlace = boardPlace,
            Wiring = new WiringBuilder(board, boardPlace, pins, spi, findings).Build(layers.Entry.Place),
            Wires = layers.Pick(keys => keys.Wires),
            Spi = spi,
            AlsoUses = layers.Pick(keys => keys.AlsoUses)?.Value ?? ImmutableArray<OtherUse>.Empty,
            AlsoUsesPlace = layers.Pick(keys => keys.AlsoUses)?.Place ?? layers.Entry.Place,
            SharesSpi = layers.Pick(keys => keys.SharesSpi) is { } shares
                ? ImmutableArray.CreateRange(shares.Value.Select(share => share.Value))
                : ImmutableArray<BusNeighbour>.Empty,
            Radio = radio,
            Part = part,
            FrontEnd = Known(radio.FrontEnd, "front end", () => FrontEnds.Names, FrontEnds.Find),
            Power = power,
            Test = layers.Pick(keys => keys.Test),
            Height = layers.Pick(keys => keys.Height),
            Temperature = layers.Pick(keys => keys.Temperature),
            Supply = layers.Pick(keys => keys.Supply)?.Value,
            BoardSupply = layers.Pick(keys => keys.BoardSupply)?.Value,
            Battery = layers.Pick(keys => keys.Battery)?.Value,
            RunsFor = layers.Pick(keys => keys.RunsFor),
            Sleep = layers.Pick(keys => keys.Sleep)?.Value,
            Service = layers.Pick(keys => keys.Service)?.Value,
            Wifi = layers.Pick(keys => keys.Wifi),
            Host = layers.Pick(keys => keys.Host)?.Value,
            Air = AirBuilder.Build(
                [layers.Pick(keys => keys.Air)?.Value, networkAir], networkAir?.Place ?? network, layers.Pick(keys => keys.Retry)),
            OwnPipes = layers.Pick(keys => keys.Pipes)?.Value,
            PipesPlace = layers.Pick(keys => keys.Pipes)?.Place ?? layers.Entry.Place,
            IsExternal = layers.Pick(keys => keys.External)?.Value ?? false,
            Measured = layers.Pick(keys => keys.Measured)?.Value,
            PlaceText = layers.Pick(keys => keys.Place),
            Verified = layers.Pick(keys => keys.Verified),
            Number = layers.Pick(keys => keys.Number),
            Writes = layers.Writes,
        };
    }

    private void CheckStep(RadioPart? part, Stated<PowerLevel>? power)
    {
        if (part is null || power is null || part.Step(power.Value) is not null)
            return;
        var nearest = part.PowerSteps.OrderBy(step => Math.Abs(step.Step.Centi - power.Value.Centi)).First();
        findings.Add(ValueNotInList.At(
            power.Place, $"{power.Value}", $"a power step of {part.Name}", [.. part.PowerSteps.Select(step => $"{step.Step}")], $"{nearest.Step}"));
    }

    // A near miss is a slip of the pen; a part that is merely not in our tables is a missing fact, which rules report.
    private T? Known<T>(Stated<string>? written, string what, Func<IEnumerable<string>> names, Func<string, T?> find)
        where T : class
    {
        if (written is null)
            return null;
        var found = find(written.Value);
        if (found is null && Nearest.To(written.Value, names()) is not null)
            findings.Add(UndefinedReference.At(written.Place, written.Value, what, names()));
        return found;
    }

    /// <summary>Where a node's keys may stand, nearest first.</summary>
    private sealed record Layers(Settings? Member, Settings Entry, Settings? All)
    {
        public Stated<T>? Pick<T>(Func<NodeKeys, Key<T>> key)
        {
            var (ofAll, ofNode) = (key(NodeKeys.OfAll), key(NodeKeys.OfNode));
            if (Member is not null && Member.Has(ofAll))
                return Member.Written(ofAll);
            if (Entry.Has(ofNode))
                return Entry.Written(ofNode);
            return All is not null && All.Has(ofAll) ? All.Written(ofAll) : ofNode.DefaultAt(Entry.Place);
        }

        public bool Writes(string key) =>
            Member?.Writes(key) == true || Entry.Writes(key) || All?.Writes(key) == true;
    }
}
