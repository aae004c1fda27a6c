using System.Text;
using RadioLint.Cli.Files;
using RadioLint.Readback;

namespace RadioLint.Cli.Readback;

/// <summary>Hands a file or a stream line by line to whoever reads it; never more than a piece is held.</summary>
internal static class LogSource
{
    private const int Piece = 32 * 1024;

    /// <summary>Reads to the end, or to the bound of lines. UTF-8, or what a byte order mark says; bytes that are neither stand as U+FFFD.</summary>
    /// <param name="take">Takes a line; false when no further one is wanted.</param>
    /// <param name="longest">Characters of a line that are kept.</param>
    public static void Read(Stream stream, Func<LogLine, bool> take, int longest = LogLimits.LongestLine)
    {
        using var text = new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true, Piece, leaveOpen: true);
        var splitter = new LineSplitter(longest);
        var characters = new char[Piece];
        for (var count = text.Read(characters, 0, Piece); count > 0; count = text.Read(characters, 0, Piece))
        {
            foreach (var line in splitter.Add(characters, count))
            {
                if (!take(line))
                    return;
            }
        }
        if (splitter.End() is { } last)
            take(last);
    }

    /// <summary>The same from a file.</summary>
    /// <exception cref="CannotWorkException">It cannot be read.</exception>
    public static void ReadFile(string name, string path, Func<LogLine, bool> take, int longest = LogLimits.LongestLine)
    {
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            Read(file, take, longest);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot read `{ManifestFile.Slashes(name)}`: {(Directory.Exists(path) ? "it is a folder" : Trouble.Words(fault))}");
        }
    }
}
