namespace RadioLint.Rules.HostCode;

/// <summary>What an analyzer tells the code fixes beside the place: keys of a diagnostic's properties.</summary>
public static class FixNotes
{
    /// <summary>C# that takes the place of the marked expression, its names in full; where several may be meant, all of them.</summary>
    public const string Replacement = "replacement";

    /// <summary>Stands between several: no code has it, not even in a text over several lines.</summary>
    public const char Between = '\u001E';

    /// <summary>The same as people read it: names from the network's class down.</summary>
    public const string Shown = "shown";

    /// <summary>The generated type that takes the place of one of the program's own.</summary>
    public const string GeneratedType = "generated-type";
}
