using System.Collections.Immutable;
using RadioLint.Manifest;

namespace RadioLint.Model;

/// <summary>The order of a payload's fields in the packet, where it is not the one in which they are written.</summary>
/// <param name="Names">Of all fields, the first byte's first; empty while `open`, when <see cref="AlignedOrder"/> holds.</param>
public sealed record FieldOrder(ImmutableArray<Stated<string>> Names)
{
    public static readonly FieldOrder Open = new(ImmutableArray<Stated<string>>.Empty);

    public bool IsOpen => Names.IsEmpty;

    /// <summary>As the manifest would write what a payload has.</summary>
    public static string InManifest(Payload payload) => $"[{string.Join(", ", payload.Fields.Select(field => field.Name))}]";
}
