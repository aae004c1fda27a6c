using RadioLint.Manifest;
using RadioLint.Manifest.Keys;

namespace RadioLint.Tests.Support;

/// <summary>The maps that a manifest may hold, found from the top through the reader's own tables.</summary>
public static class SchemaWalk
{
    // What only shipped profiles write is described by their own files.
    private static readonly string[] OfUsersBoards = ["based-on", "reserved", "clock", "logic", "brown-out", "rail-3v3", "rail-5v", "always-on", "removed"];

    public static IReadOnlyList<(string What, IReadOnlyList<Key> Keys)> Maps()
    {
        var maps = new List<(string, IReadOnlyList<Key>)>();
        Walk(RootKeys.Shape.Form, [], maps);
        return maps;
    }

    private static void Walk(SchemaForm form, HashSet<IMapShape> seen, List<(string, IReadOnlyList<Key>)> maps)
    {
        var inside = form.Inside();
        if (form is SchemaForm.Map { Shape: var shape })
        {
            if (!seen.Add(shape))
                return;
            var keys = shape == BoardKeys.Profile ? [.. shape.Keys.Where(key => OfUsersBoards.Contains(key.Name))] : shape.Keys;
            maps.Add((shape.What, keys));
            inside = keys.Select(key => key.Shape.Form);
        }
        foreach (var next in inside)
            Walk(next, seen, maps);
    }
}
