using RadioLint.Manifest.Keys;

namespace RadioLint.Manifest;

/// <summary>Which maps of a manifest have a key: for keys that stand in the wrong one.</summary>
internal static class KeyPlaces
{
    // More places than this are no help.
    private const int MostPlaces = 3;

    private static readonly Lazy<Dictionary<string, List<string>>> Places = new(() =>
    {
        var places = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        Walk(RootKeys.Shape.Form, [], places);
        return places;
    });

    /// <summary>"`air`", or "`spi`, a board profile"; null when no map has it, or too many.</summary>
    public static string? Of(string key) =>
        Places.Value.TryGetValue(key, out var maps) && maps.Count <= MostPlaces ? string.Join(", ", maps) : null;

    private static void Walk(SchemaForm form, HashSet<IMapShape> seen, Dictionary<string, List<string>> places)
    {
        if (form is SchemaForm.Map { Shape: var shape })
        {
            if (!seen.Add(shape))
                return;
            foreach (var key in shape.Keys)
            {
                if (!places.TryGetValue(key.Name, out var maps))
                    places.Add(key.Name, maps = []);
                if (!maps.Contains(shape.What))
                    maps.Add(shape.What);
            }
            // What a profile says of pins and units is no place that a manifest's key is meant for.
            if (shape == BoardKeys.Profile)
                return;
        }
        foreach (var inside in form.Inside())
            Walk(inside, seen, places);
    }
}
