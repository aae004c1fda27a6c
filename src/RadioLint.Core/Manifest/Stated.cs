using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>A value with the place that states it; a default's place is that of the map which leaves it out.</summary>
public sealed record Stated<T>(T Value, Place Place)
{
    /// <summary>True when the manifest is silent and the documented default holds.</summary>
    public bool IsDefault { get; init; }
}
