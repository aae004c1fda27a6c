using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;

namespace RadioLint.Manifest;

/// <summary>What a value may look like. The same object reads it, describes it to editors and fills in defaults.</summary>
public abstract class Shape
{
    /// <summary>What is expected, for messages: "a duration such as `30 ms`".</summary>
    public abstract string Expected { get; }

    /// <summary>The form for the JSON Schema.</summary>
    public abstract SchemaForm Form { get; }
}

/// <summary>A shape that yields a <typeparamref name="T"/>.</summary>
public abstract class Shape<T> : Shape
{
    /// <summary>Reads a value; on failure adds at least one finding and yields nothing.</summary>
    public abstract bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out T result);

    /// <summary>The same shape with its result converted.</summary>
    public Shape<TOther> As<TOther>(Func<T, TOther> convert) => new Converted<T, TOther>(this, convert);
}

/// <summary>Forms of a JSON Schema that shapes describe themselves by; plain data, written out elsewhere.</summary>
public abstract record SchemaForm
{
    /// <summary>The forms directly inside; of a map, those of its keys' values. A map may stand inside itself.</summary>
    public virtual IEnumerable<SchemaForm> Inside() => [];

    /// <summary>A text or number whose text matches a pattern (ECMA-262); null matches all.</summary>
    public sealed record Scalar(string? Pattern) : SchemaForm;

    /// <summary>One of a few words.</summary>
    public sealed record Words(IReadOnlyList<string> Allowed) : SchemaForm;

    /// <summary>true or false.</summary>
    public sealed record Truth : SchemaForm;

    /// <summary>A whole number; bounds are left to the rules, which say more than a schema can.</summary>
    public sealed record Whole : SchemaForm;

    /// <summary>No value at all.</summary>
    public sealed record Nothing : SchemaForm;

    /// <summary>A list.</summary>
    public sealed record ListOf(SchemaForm Item) : SchemaForm
    {
        public override IEnumerable<SchemaForm> Inside() => [Item];
    }

    /// <summary>A map with known keys.</summary>
    public sealed record Map(IMapShape Shape) : SchemaForm
    {
        public override IEnumerable<SchemaForm> Inside() => Shape.Keys.Select(key => key.Shape.Form);
    }

    /// <summary>A map from names of the user's to values of one form.</summary>
    public sealed record Named(SchemaForm Value) : SchemaForm
    {
        public override IEnumerable<SchemaForm> Inside() => [Value];
    }

    /// <summary>Severities by rule ID, with `allow` and `locked`.</summary>
    public sealed record Rules(IMapShape Allowance) : SchemaForm
    {
        public override IEnumerable<SchemaForm> Inside() => [new Map(Allowance)];
    }

    /// <summary>Anything.</summary>
    public sealed record Any : SchemaForm;

    /// <summary>Any of several.</summary>
    public sealed record AnyOf(IReadOnlyList<SchemaForm> Choices) : SchemaForm
    {
        public override IEnumerable<SchemaForm> Inside() => Choices;
    }
}

internal sealed class Converted<T, TOther>(Shape<T> inner, Func<T, TOther> convert) : Shape<TOther>, IWrapped
{
    public Shape Inner => inner;

    public override string Expected => inner.Expected;

    public override SchemaForm Form => inner.Form;

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out TOther result)
    {
        if (inner.TryRead(value, findings, out var read))
        {
            result = convert(read);
            return true;
        }
        result = default;
        return false;
    }
}

/// <summary>A shape round another one.</summary>
internal interface IWrapped
{
    Shape Inner { get; }
}
