using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>The maps that stand in more than one place of the tables, each with a name; a map that may hold itself is one of them.</summary>
internal sealed class SharedMaps
{
    private readonly Dictionary<IMapShape, string> byShape = [];
    private readonly List<(IMapShape Shape, string Name)> names = [];

    /// <summary>In the order in which the tables first mention them.</summary>
    public IReadOnlyList<(IMapShape Shape, string Name)> Names => names;

    public static SharedMaps Of(SchemaForm root)
    {
        var uses = new Dictionary<IMapShape, int>();
        var order = new List<IMapShape>();
        Count(root, uses, order);
        var shared = new SharedMaps();
        foreach (var shape in order.Where(shape => uses[shape] > 1))
            shared.Add(shape);
        return shared;
    }

    /// <summary>Its name, or null for a map that stands in one place only.</summary>
    public string? NameOf(IMapShape shape) => byShape.TryGetValue(shape, out var name) ? name : null;

    private void Add(IMapShape shape)
    {
        var stem = Text.Names.Mend(WithoutArticle(shape.What));
        var name = stem;
        for (var n = 2; names.Exists(known => known.Name == name); n++)
            name = FormattableString.Invariant($"{stem}-{n}");
        byShape.Add(shape, name);
        names.Add((shape, name));
    }

    private static string WithoutArticle(string what) =>
        what.StartsWith("a ", StringComparison.Ordinal) ? what[2..] : what.StartsWith("an ", StringComparison.Ordinal) ? what[3..] : what;

    private static void Count(SchemaForm form, Dictionary<IMapShape, int> uses, List<IMapShape> order)
    {
        if (form is SchemaForm.Map { Shape: var shape })
        {
            uses[shape] = uses.TryGetValue(shape, out var before) ? before + 1 : 1;
            if (before > 0)
                return;
            order.Add(shape);
        }
        foreach (var inside in form.Inside())
            Count(inside, uses, order);
    }
}
