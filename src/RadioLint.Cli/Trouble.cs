namespace RadioLint.Cli;

/// <summary>Ends a command that cannot do its work; the message is one line for the user.</summary>
internal sealed class CannotWorkException(string message, string? advice = null) : Exception(message)
{
    /// <summary>What to do, starting with a verb.</summary>
    public string? Advice { get; } = advice;
}

/// <summary>A file or folder that could not be read, and why.</summary>
internal readonly record struct Unread(string File, string Reason);

/// <summary>Faults of the file system in our words: the system's own are in the user's language and are left out of the native build.</summary>
internal static class Trouble
{
    /// <summary>True for what a file operation may throw without a fault of ours.</summary>
    public static bool IsOfFiles(Exception fault) => fault is IOException or UnauthorizedAccessException or System.Security.SecurityException;

    public static string Words(Exception fault) => fault switch
    {
        FileNotFoundException or DirectoryNotFoundException => "there is no such file or folder",
        UnauthorizedAccessException or System.Security.SecurityException => "there is no permission",
        PathTooLongException => "the path is too long",
        // Error numbers of POSIX <errno.h> as Linux and macOS give them; elsewhere the bare number is shown.
        IOException { HResult: 5 } => "the device reports an error",
        IOException { HResult: 21 } => "it is a folder",
        IOException { HResult: 28 } => "no space is left",
        IOException { HResult: 30 } => "the file system is read-only",
        _ => FormattableString.Invariant($"the system reports error {fault.HResult}"),
    };
}
