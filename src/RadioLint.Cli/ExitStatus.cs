namespace RadioLint.Cli;

/// <summary>What the process says to whoever started it.</summary>
internal enum ExitStatus
{
    /// <summary>Nothing at or above the fail level.</summary>
    Passed = 0,

    /// <summary>Something at or above it, or files that are stale.</summary>
    Failed = 1,

    /// <summary>The command could not do its work: a wrong option, no file, no permission.</summary>
    NotDone = 2,

    /// <summary>A defect of the program.</summary>
    Defect = 3,
}
