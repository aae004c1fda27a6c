using System.Text;

namespace RadioLint.Cli.Terminal;

/// <summary>What lies round a command: streams, folder, day, terminal. Commands look at nothing else of the process.</summary>
internal sealed record Surroundings : IDisposable
{
    public required Stream Input { get; init; }

    /// <summary>Results: findings, pages, the schema.</summary>
    public required StreamWriter Results { get; init; }

    /// <summary>Notes and refusals.</summary>
    public required TextWriter Notes { get; init; }

    /// <summary>The folder that relative paths start from, as a full path.</summary>
    public required string Folder { get; init; }

    /// <summary>The machine's day; asked once a command, and only when none is given.</summary>
    public required Func<DateTime> Today { get; init; }

    /// <summary>For `--timings` and `--watch`; nothing that is found depends on it.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>The width of the terminal that shows the results; null when they go elsewhere.</summary>
    public int? Width { get; init; }

    public bool HasColour { get; init; }

    /// <summary>True when notes go to a terminal, where progress may be written over.</summary>
    public bool IsWatched { get; init; }

    /// <summary>True when lines further up can be written over as well (ECMA-48 cursor movement).</summary>
    public bool MovesCursor { get; init; }

    public static Surroundings OfProcess()
    {
        var isTerminal = !Console.IsOutputRedirected;
        return new()
        {
            Input = Console.OpenStandardInput(),
            Results = Writer(Console.OpenStandardOutput()),
            Notes = Writer(Console.OpenStandardError()),
            Folder = Directory.GetCurrentDirectory(),
            Today = () => DateTime.Today,
            Width = isTerminal ? Math.Clamp(Console.WindowWidth, 40, 120) : null,
            IsWatched = !Console.IsErrorRedirected,
            MovesCursor = !Console.IsErrorRedirected && KnowsEscapes(Environment.GetEnvironmentVariable),
            HasColour = isTerminal && WantsColour(Environment.GetEnvironmentVariable),
        };
    }

    /// <summary>UTF-8 without a mark, lines ending in LF whatever the system.</summary>
    public static StreamWriter Writer(Stream stream) =>
        new(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), bufferSize: 16 * 1024) { NewLine = "\n" };

    /// <summary>What the environment says about colour on a terminal: none with NO_COLOR set to anything, or where escapes are not understood.</summary>
    public static bool WantsColour(Func<string, string?> environment) =>
        string.IsNullOrEmpty(environment("NO_COLOR")) && KnowsEscapes(environment);

    private static bool KnowsEscapes(Func<string, string?> environment) =>
        environment("TERM") is var term
        && term != "dumb"
        && (!OperatingSystem.IsWindows() || term is not null || environment("WT_SESSION") is not null);

    public string FullPath(string path) => Path.GetFullPath(path, Folder);

    /// <summary>One line to the notes, after the results so far.</summary>
    public void Note(string text)
    {
        Results.Flush();
        Notes.WriteLine($"radiolint: {Printable.Text(text)}");
        Notes.Flush();
    }

    public void Dispose()
    {
        Input.Dispose();
        Results.Dispose();
        Notes.Dispose();
    }
}
