using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Manifest;

namespace RadioLint.Hardware;

/// <summary>A figure with its source.</summary>
/// <param name="When">Under which condition.</param>
/// <param name="Source">Name of the document in the profile's `sources`.</param>
/// <param name="Where">Table or section.</param>
/// <param name="Basis">`read`, `secondary`, `derived`, `memory` or `assumed`.</param>
public sealed record Fact<T>(T Value, string? When, string Source, string? Where, string Basis)
{
    /// <summary>Whose current it is where parts are stacked: `chip and front end` or `front end`.</summary>
    public string? Covers { get; init; }

    /// <summary>What else a reader must know.</summary>
    public string? Note { get; init; }

    /// <summary>Document and table, for messages.</summary>
    public string Citation => new Origin(Source, Where, Basis, Note).Citation;
}

/// <summary>Where the values of one line of a table come from.</summary>
/// <param name="Basis">As of a <see cref="Fact{T}"/>; of several values that of the weakest, and the note says which.</param>
public sealed record Origin(string Source, string? Where, string Basis, string? Note)
{
    /// <summary>Document and table, for messages.</summary>
    public string Citation => Basis == "memory" ? "value from memory" : Where is null ? Source : $"{Source}, {Where}";
}

/// <summary>`{ is: VALUE, source: ..., where: ..., basis: ... }`, or the bare value in a profile of the user's own.</summary>
internal sealed class FactShape<T> : Shape<Fact<T>>, IWrapped
{
    private readonly Shape<T> inner;
    private readonly MapShape<Fact<T>?> map;

    public FactShape(Shape<T> inner)
    {
        this.inner = inner;
        var value = new Key<T>("is", inner, "the figure") { IsRequired = true };
        var when = new Key<string>("when", Scalars.Text, "condition");
        var source = new Key<string>("source", Scalars.Text, "document, by its name under `sources`");
        var where = new Key<string>("where", Scalars.Text, "table or section");
        var basis = new Key<string>("basis", Scalars.Text, "how it is known");
        var note = new Key<string>("note", Scalars.Text, "remark");
        var covers = new Key<string>("covers", Scalars.Text, "what the figure covers");
        var of = new Key<string>("of", Scalars.Text, "which supply it is a share of");
        var trap = new Key<bool>("trap", Scalars.Truth, "whether it traps people");
        map = new(
            "a figure with its source", [value, when, source, where, basis, note, covers, of, trap],
            s => s.Written(value) is { } read
                ? new(read.Value, s.Written(when)?.Value, s.Written(source)?.Value ?? "", s.Written(where)?.Value, s.Written(basis)?.Value ?? "")
                {
                    Covers = s.Written(covers)?.Value,
                    Note = s.Written(note)?.Value,
                }
                : null);
    }

    public Shape Inner => map;

    public override string Expected => inner.Expected;

    public override SchemaForm Form => new SchemaForm.AnyOf([inner.Form, map.Form]);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out Fact<T> result)
    {
        if (value is LocatedMap)
        {
            result = map.TryRead(value, findings, out var fact) ? fact : null;
            return result is not null;
        }
        result = inner.TryRead(value, findings, out var bare) ? new(bare, null, "", null, "stated") : null;
        return result is not null;
    }
}
