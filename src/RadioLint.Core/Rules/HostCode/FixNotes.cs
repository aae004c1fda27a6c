namespace RadioLint.Rules.HostCode;

/// <summary>What an analyzer tells the code fixes beside the place: keys of a diagnostic's properties.</summary>
public static class FixNotes
{
    /// <summary>C# that takes the place of the marked expression.</summary>
    public const string Replacement = "replacement";

    /// <summary>The generated type that takes the place of one of the program's own.</summary>
    public const string GeneratedType = "generated-type";
}
