namespace RadioLint.Rules.HostCode;

/// <summary>What an analyzer tells the code fixes beside the place: keys of a diagnostic's properties.</summary>
public static class FixNotes
{
    /// <summary>C# that takes the place of the marked expression, its names in full; a line for each of several that may be meant.</summary>
    public const string Replacement = "replacement";

    /// <summary>The same as people read it: names from the network's class down.</summary>
    public const string Shown = "shown";

    /// <summary>The generated type that takes the place of one of the program's own.</summary>
    public const string GeneratedType = "generated-type";
}
