using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>A manifest with every documented default written out, and the pins that its boards customarily use: itself a manifest, judged the same.</summary>
public static class EffectiveManifest
{
    /// <summary>As YAML, its keys in the order of the file and the defaults after them, without comments; null when the text does not parse.</summary>
    public static string? Of(SourceText source, CheckOptions? options = null)
    {
        if (FileText.Refused(source, []) || TreeReader.Read(source, []) is not { } root)
            return null;
        var network = ManifestReader.Read(source, (options ?? new()).Include, []);
        return BlockYaml.Write(root is LocatedMap { Entries.Count: > 0 } map ? new Filler(map, network).Fill() : root);
    }

    /// <summary>Copies the tree along the reader's tables and adds what they say of absent keys.</summary>
    private sealed class Filler(LocatedMap root, Network? network)
    {
        // Maps that hold defaults even where they are left out. What a node leaves out of `air` or `retry` is the network's, and no default.
        private static readonly Key[] Implied = [RootKeys.Air, AirKeys.Retry, NodeKeys.OfNode.Radio, NodeKeys.OfNode.Spi];

        private readonly HashSet<string> ofAllNodes =
            root.Find(RootKeys.AllNodes.Name)?.Value is LocatedMap allNodes ? Standing(allNodes, NodeKeys.OfAll.Shape) : [];

        private readonly LocatedValue? networkAir = root.Find(RootKeys.Air.Name)?.Value;
        private readonly CustomaryPins pins = new(root, network);

        public LocatedMap Fill() => FillMap(root, RootKeys.Shape);

        private LocatedValue Fill(LocatedValue value, SchemaForm form)
        {
            switch (value)
            {
                case LocatedList list when Choices(form).OfType<SchemaForm.ListOf>().FirstOrDefault() is { } of:
                    var items = new LocatedList(list.Place);
                    foreach (var item in list.Items)
                        items.Add(Fill(item, of.Item));
                    return items;
                case LocatedMap map when MapForm(map, form) is { } shape:
                    return FillMap(map, shape);
                case LocatedMap map when Choices(form).OfType<SchemaForm.Named>().FirstOrDefault() is { } named:
                    var copy = new LocatedMap(map.Place);
                    foreach (var (key, inner) in map.Entries)
                        copy.Add(new(key, IsNote(key) ? inner : Fill(inner, named.Value)));
                    return copy;
                default:
                    return value;
            }
        }

        // Of several maps that a key may hold, the one whose required keys are there: a payload is in its long form when it has `fields`.
        private static IMapShape? MapForm(LocatedMap map, SchemaForm form)
        {
            var choices = Choices(form).ToList();
            var maps = choices.OfType<SchemaForm.Map>().Select(choice => choice.Shape).ToList();
            return maps.Find(shape => shape.Keys.All(key => !key.IsRequired || map.Find(key.Name) is not null))
                ?? (choices.Exists(choice => choice is SchemaForm.Named) ? null : maps.FirstOrDefault());
        }

        private LocatedMap FillMap(LocatedMap map, IMapShape shape)
        {
            var copy = new LocatedMap(map.Place);
            foreach (var (name, value) in map.Entries)
            {
                var key = shape.Keys.FirstOrDefault(known => known.Name == name.Text);
                copy.Add(new(name, key is null ? value : Fill(value, key.Shape.Form)));
            }
            if (HasDefaults(map, shape))
                AddDefaults(copy, map, shape);
            return pins.Complete(map, copy);
        }

        private bool HasDefaults(LocatedMap map, IMapShape shape) =>
            shape != NodeKeys.OfAll.Shape && (shape != AirKeys.Shape || ReferenceEquals(map, networkAir));

        private void AddDefaults(LocatedMap copy, LocatedMap map, IMapShape shape)
        {
            var stands = Standing(map, shape);
            if (shape == NodeKeys.OfNode.Shape)
                stands.UnionWith(ofAllNodes);
            foreach (var key in shape.Keys)
            {
                if (stands.Contains(key.Name))
                    continue;
                if (key.Default is { } text)
                    copy.Add(new(Word(map, key.Name), Word(map, text)));
                else if (Array.IndexOf(Implied, key) >= 0 && Choices(key.Shape.Form).OfType<SchemaForm.Map>().FirstOrDefault() is { Shape: var inner })
                    copy.Add(new(Word(map, key.Name), Empty(map, inner)));
            }
        }

        private LocatedMap Empty(LocatedMap map, IMapShape shape)
        {
            var filled = new LocatedMap(map.Place);
            AddDefaults(filled, new LocatedMap(map.Place), shape);
            return filled;
        }

        // A slip of the pen stands for the key that it means, as in reading.
        private static HashSet<string> Standing(LocatedMap map, IMapShape shape)
        {
            var known = new HashSet<string>(shape.Keys.Select(key => key.Name), StringComparer.Ordinal);
            var names = map.Entries.Select(entry => entry.Key).Where(key => !IsNote(key));
            return new(names.Select(key => known.Contains(key.Text) ? key.Text : Nearest.To(key.Text, shape.Keys.Select(each => each.Name)) ?? ""), StringComparer.Ordinal);
        }

        private static bool IsNote(LocatedScalar key) => key.Text.StartsWith("x-", StringComparison.Ordinal);

        private static LocatedScalar Word(LocatedMap map, string text) => new(map.Place, text);

        private static IEnumerable<SchemaForm> Choices(SchemaForm form) => form is SchemaForm.AnyOf any ? any.Choices.SelectMany(Choices) : [form];
    }
}
