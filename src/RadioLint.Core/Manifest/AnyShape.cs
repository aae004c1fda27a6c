using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;

namespace RadioLint.Manifest;

/// <summary>Takes anything as it stands: notes and sources in profiles.</summary>
internal sealed class AnyShape : Shape<LocatedValue>
{
    public static readonly AnyShape Instance = new();

    public override string Expected => "any value";

    public override SchemaForm Form => new SchemaForm.Any();

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out LocatedValue result)
    {
        result = value;
        return true;
    }
}

/// <summary>Keys of profiles that people read and no rule does.</summary>
internal static class Remark
{
    public static Key<LocatedValue> Key(string name, string summary) => new(name, AnyShape.Instance, summary);
}
