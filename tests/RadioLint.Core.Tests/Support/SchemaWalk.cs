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
        switch (form)
        {
            case SchemaForm.AnyOf any:
                foreach (var choice in any.Choices)
                    Walk(choice, seen, maps);
                break;
            case SchemaForm.ListOf list:
                Walk(list.Item, seen, maps);
                break;
            case SchemaForm.Named named:
                Walk(named.Value, seen, maps);
                break;
            case SchemaForm.Rules rules:
                Walk(new SchemaForm.Map(rules.Allowance), seen, maps);
                break;
            case SchemaForm.Map { Shape: var shape } when seen.Add(shape):
                var keys = shape == BoardKeys.Profile ? [.. shape.Keys.Where(key => OfUsersBoards.Contains(key.Name))] : shape.Keys;
                maps.Add((shape.What, keys));
                foreach (var key in keys)
                    Walk(key.Shape.Form, seen, maps);
                break;
        }
    }
}
