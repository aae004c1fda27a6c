using System.Collections.Immutable;

namespace RadioLint.Text;

/// <summary>How freely an edit may be made.</summary>
public enum FixGrade
{
    /// <summary>Wording or layout only: what goes on the air, on a wire or into a payload stays the same.</summary>
    Safe,

    /// <summary>A person must accept it.</summary>
    Offered,
}

/// <summary>Replaces one place by a text.</summary>
public readonly record struct Edit(Place Place, string NewText);

/// <summary>A remedy that can be carried out on the file.</summary>
public sealed record Fix(FixGrade Grade, string Title, ImmutableArray<Edit> Edits)
{
    public string Title { get; init; } = OneLine.Of(Title);
}
