using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest;

/// <summary>A list; a single value counts as a list of one.</summary>
public sealed class ListShape<T>(Shape<T> item) : Shape<ImmutableArray<Stated<T>>>, IWrapped
{
    public Shape Inner => item;

    public override string Expected => $"{item.Expected}, or a list of them";

    public override SchemaForm Form => new SchemaForm.AnyOf([item.Form, new SchemaForm.ListOf(item.Form)]);

    public override bool TryRead(LocatedValue value, List<Finding> findings, out ImmutableArray<Stated<T>> result)
    {
        var items = value is LocatedList list ? list.Items : [value];
        var read = ImmutableArray.CreateBuilder<Stated<T>>(items.Count);
        foreach (var each in items)
        {
            if (Reading.HasEnough(findings, each.Place))
                break;
            if (item.TryRead(each, findings, out var one))
                read.Add(new(one, each.Place));
        }
        result = read.ToImmutable();
        // Half a list of capacitors or obstacles would be judged as if it were the whole; a link says enough by itself.
        return read.Count == items.Count || (item is IMapShape && read.Count > 0);
    }
}

/// <summary>One entry of a map whose keys are the user's own names.</summary>
public readonly record struct Named<T>(LocatedScalar Name, Stated<T> Value);

/// <summary>A map from names of the user's to values of one shape, in the file's order.</summary>
public sealed class NamedShape<T>(string what, Shape<T> item, ScalarShape<string> name) : Shape<ImmutableArray<Named<T>>>, IWrapped
{
    public Shape Inner => item;

    public override string Expected => $"{what}, a map of names";

    public override SchemaForm Form => new SchemaForm.Named(item.Form);

    public override bool TryRead(LocatedValue value, List<Finding> findings, out ImmutableArray<Named<T>> result)
    {
        result = ImmutableArray<Named<T>>.Empty;
        if (value is not LocatedMap map)
        {
            findings.Add(WrongType.At(value.Place, value is LocatedScalar scalar ? $"`{scalar.Text}`" : value.Kind, Expected));
            return false;
        }
        var read = ImmutableArray.CreateBuilder<Named<T>>(map.Entries.Count);
        foreach (var entry in map.Entries)
        {
            if (entry.Key.Text.StartsWith("x-", StringComparison.Ordinal))
                continue;
            if (Reading.HasEnough(findings, entry.Key.Place))
                break;
            var fault = name.Read(entry.Key, out _);
            if (fault is not null)
                findings.Add(fault);
            if (item.TryRead(entry.Value, findings, out var one))
                read.Add(new(entry.Key, new(one, entry.Value.Place)));
        }
        result = read.ToImmutable();
        return true;
    }
}

/// <summary>A value that may be written in short as a scalar or a list, or in full as a map.</summary>
public sealed class FormsShape<T>(ScalarShape<T>? scalar, Shape<T>? map, Shape<T>? list = null) : Shape<T>
{
    public Shape? Map => map;

    public Shape? List => list;

    // Not made in the constructor: a map may hold itself.
    public override string Expected =>
        string.Join(" or ", new Shape?[] { scalar, map, list }.Where(shape => shape is not null).Select(shape => shape!.Expected));

    public override SchemaForm Form =>
        new SchemaForm.AnyOf([.. new Shape?[] { scalar, map, list }.Where(shape => shape is not null).Select(shape => shape!.Form)]);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out T result)
    {
        Shape<T>? fitting = value switch
        {
            LocatedScalar => scalar,
            LocatedMap => map,
            _ => list,
        };
        if (fitting is not null)
            return fitting.TryRead(value, findings, out result);
        findings.Add(WrongType.At(value.Place, value is LocatedScalar s ? $"`{s.Text}`" : value.Kind, Expected));
        result = default;
        return false;
    }
}

/// <summary>A shape that is made when first used: for maps that may hold themselves.</summary>
public sealed class LateShape<T>(Func<Shape<T>> make) : Shape<T>, IWrapped
{
    private Shape<T>? made;

    public Shape Inner => made ??= make();

    public override string Expected => Inner.Expected;

    public override SchemaForm Form => Inner.Form;

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out T result) =>
        ((Shape<T>)Inner).TryRead(value, findings, out result);
}
