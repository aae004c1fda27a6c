using System.Collections.Immutable;
using System.Text;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>A choice that is not written, and why.</summary>
public sealed record LeftChoice(Choice Choice, string Why);

/// <summary>A manifest with choices written into it.</summary>
/// <param name="Text">All outside the edits as it was.</param>
/// <param name="Edits">In the order of their places; they do not overlap.</param>
/// <param name="Made">The choices that stand in the text now.</param>
/// <param name="Left">Those that do not: they belong into another file, or into a part that aliases repeat.</param>
public sealed record FilledManifest(string Text, ImmutableArray<Edit> Edits, ImmutableArray<Choice> Made, ImmutableArray<LeftChoice> Left);

/// <summary>
/// Writes choices into a manifest's text: in the place of `open`, or as a further key of the map that it fits. Comments, order, layout and line ends stay.
/// What is written is read again before it counts.
/// </summary>
public static class ManifestWriter
{
    /// <param name="network">As read from <see cref="Network.Source"/>.</param>
    public static FilledManifest Write(Network network, IEnumerable<Choice> choices)
    {
        var source = network.Source;
        if (TreeReader.Read(source, []) is not LocatedMap root)
            return new(source.Text, ImmutableArray<Edit>.Empty, ImmutableArray<Choice>.Empty, ImmutableArray.CreateRange(choices.Select(choice => new LeftChoice(choice, "the manifest is no map"))));
        var places = new ChoicePlaces(network, root);
        var left = new List<LeftChoice>();
        var spots = new List<ChoiceSpot>();
        foreach (var choice in places.InOrder(choices))
        {
            if (places.Of(choice, out var why) is { } spot)
                spots.Add(spot);
            else
                left.Add(new(choice, why));
        }
        var made = new List<ChoiceSpot>();
        Accept(source, root, spots, made, left);
        var edits = Attempt.Of(source, root, made).Edits;
        return new(Write(source.Text, edits), ImmutableArray.CreateRange(edits), ImmutableArray.CreateRange(made.Select(spot => spot.Choice)), ImmutableArray.CreateRange(left));
    }

    // All at once where the text reads back; else by halves, until those are found that an unusual layout has no room for.
    private static void Accept(SourceText source, LocatedMap root, List<ChoiceSpot> spots, List<ChoiceSpot> made, List<LeftChoice> left)
    {
        if (spots.Count == 0)
            return;
        var together = made.Concat(spots).ToList();
        var attempt = Attempt.Of(source, root, together);
        if (attempt.IsReadBack(new(source.Name, Write(source.Text, attempt.Edits))))
        {
            made.AddRange(spots);
            return;
        }
        if (spots.Count == 1)
        {
            left.Add(new(spots[0].Choice, "the layout there is too unusual to write it without a change elsewhere; write it by hand"));
            return;
        }
        var half = spots.Count / 2;
        Accept(source, root, spots.GetRange(0, half), made, left);
        Accept(source, root, spots.GetRange(half, spots.Count - half), made, left);
    }

    private static string Write(string text, IEnumerable<Edit> edits)
    {
        var written = new StringBuilder();
        var at = 0;
        foreach (var edit in edits)
        {
            written.Append(text, at, edit.Place.Start - at).Append(edit.NewText);
            at = edit.Place.End;
        }
        return written.Append(text, at, text.Length - at).ToString();
    }
}

/// <summary>Values to exchange and keys to add, and what the tree is then to be.</summary>
internal sealed class Attempt
{
    private readonly LocatedMap root;
    private readonly Dictionary<LocatedValue, LocatedValue> replaced = [];
    private readonly Dictionary<LocatedMap, LocatedMap> added = [];

    private Attempt(LocatedMap root) => this.root = root;

    /// <summary>In the order of their places.</summary>
    public IReadOnlyList<Edit> Edits { get; private set; } = [];

    public static Attempt Of(SourceText source, LocatedMap root, IEnumerable<ChoiceSpot> spots)
    {
        var attempt = new Attempt(root);
        var shapes = new Dictionary<LocatedMap, IMapShape?>();
        foreach (var spot in spots)
        {
            if (spot.Replaces is { } old)
            {
                attempt.replaced[old] = spot.Value;
                continue;
            }
            shapes[spot.Map] = spot.Shape;
            if (!attempt.added.TryGetValue(spot.Map, out var further))
                attempt.added.Add(spot.Map, further = new LocatedMap(spot.Map.Place));
            spot.AddTo(further);
        }
        var layout = new MapLayout(source, MapLayout.IsJson(source.Text));
        var edits = new List<(Edit Edit, int Depth)>();
        foreach (var pair in attempt.replaced)
            edits.Add((layout.Replace(pair.Key, pair.Value), 0));
        foreach (var pair in attempt.added)
            edits.AddRange(layout.Add(pair.Key, pair.Value, shapes[pair.Key]));
        // Where two end at one place, what belongs to the inner map comes first.
        attempt.Edits = [.. edits.OrderBy(one => one.Edit.Place.Start).ThenByDescending(one => one.Depth).Select(one => one.Edit)];
        return attempt;
    }

    /// <summary>True when a text has exactly the tree that is wanted: the old one, the new values, the added keys, nothing else.</summary>
    public bool IsReadBack(SourceText text)
    {
        var findings = new List<Findings.Finding>();
        return TreeReader.Read(text, findings) is { } now && findings.Count == 0 && IsWanted(root, now);
    }

    private bool IsWanted(LocatedValue old, LocatedValue now)
    {
        if (replaced.TryGetValue(old, out var other))
            return IsSame(other, now);
        switch (old)
        {
            case LocatedMap map when now is LocatedMap present:
                var further = added.TryGetValue(map, out var more) ? more : null;
                return present.Entries.Count == map.Entries.Count + (further?.Entries.Count ?? 0)
                    && map.Entries.All(entry => present.Find(entry.Key.Text) is { } one && IsWanted(entry.Value, one.Value))
                    && (further is null || further.Entries.All(entry => present.Find(entry.Key.Text) is { } one && IsSame(entry.Value, one.Value)));
            case LocatedList list when now is LocatedList present:
                return list.Items.Count == present.Items.Count && list.Items.Zip(present.Items, IsWanted).All(same => same);
            default:
                return IsSame(old, now);
        }
    }

    private static bool IsSame(LocatedValue one, LocatedValue other) => (one, other) switch
    {
        (LocatedScalar a, LocatedScalar b) => a.Text == b.Text,
        (LocatedMap a, LocatedMap b) => a.Entries.Count == b.Entries.Count && a.Entries.All(entry => b.Find(entry.Key.Text) is { } same && IsSame(entry.Value, same.Value)),
        (LocatedList a, LocatedList b) => a.Items.Count == b.Items.Count && a.Items.Zip(b.Items, IsSame).All(same => same),
        _ => false,
    };
}
