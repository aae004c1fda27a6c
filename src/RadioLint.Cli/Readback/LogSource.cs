using System.Text;
using RadioLint.Cli.Files;
using RadioLint.Readback;

namespace RadioLint.Cli.Readback;

/// <summary>Hands a file or a stream to a log reader, piece by piece.</summary>
internal static class LogSource
{
    private const int Piece = 32 * 1024;

    /// <summary>Reads to the end, or to the bound of lines. UTF-8, or what a byte order mark says; bytes that are neither stand as U+FFFD.</summary>
    public static void Read(Stream stream, LogReader reader)
    {
        using var text = new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true, Piece, leaveOpen: true);
        var splitter = new LineSplitter();
        var characters = new char[Piece];
        for (var count = text.Read(characters, 0, Piece); count > 0; count = text.Read(characters, 0, Piece))
        {
            foreach (var line in splitter.Add(characters, count))
            {
                if (!reader.Add(line))
                    return;
            }
        }
        if (splitter.End() is { } last)
            reader.Add(last);
    }

    /// <summary>The same from a file.</summary>
    /// <exception cref="CannotWorkException">It cannot be read.</exception>
    public static void ReadFile(string name, string path, LogReader reader)
    {
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            Read(file, reader);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot read `{ManifestFile.Slashes(name)}`: {(Directory.Exists(path) ? "it is a folder" : Trouble.Words(fault))}");
        }
    }
}
