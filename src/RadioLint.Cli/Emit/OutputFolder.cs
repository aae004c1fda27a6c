using System.Text;
using RadioLint.Emit;

namespace RadioLint.Cli.Emit;

/// <summary>The folder that headers go to. A file is replaced as a whole: a build that reads it meets the old one or the new one.</summary>
public sealed class OutputFolder(string path)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>The path of a file in the folder, with `/` between folders as given.</summary>
    public string PathOf(string name) => path.Length == 0 ? name : $"{path.Replace('\\', '/').TrimEnd('/')}/{name}";

    /// <summary>A file's text; null when there is none, and for names that lead out of the folder.</summary>
    public string? Read(string name) => Templates.IsPlain(name) ? ReadText(Path.Combine(path, name)) : null;

    /// <summary>Writes a file; the folder is made when it is missing.</summary>
    public void Write(string name, string text)
    {
        if (path.Length > 0)
            Directory.CreateDirectory(path);
        Replace(Path.Combine(path, name), text);
    }

    /// <summary>A file's text, or null when there is no such file.</summary>
    public static string? ReadText(string file)
    {
        try
        {
            return File.ReadAllText(file, Utf8);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
    }

    /// <summary>Other files of a kind in a file's folder, in ordinal order.</summary>
    public static IEnumerable<string> Beside(string file, string pattern) =>
        Directory.EnumerateFiles(Path.GetDirectoryName(Path.GetFullPath(file))!, pattern)
            .Where(other => other != Path.GetFullPath(file)).Order(StringComparer.Ordinal);

    /// <summary>Puts a text in a file's place by way of a temporary file beside it, unless the file holds it already.</summary>
    public static void Replace(string file, string text)
    {
        if (ReadText(file) == text)
            return;
        var temporary = file + ".new";
        try
        {
            File.WriteAllText(temporary, text, Utf8);
            File.Move(temporary, file, overwrite: true);
        }
        catch
        {
            File.Delete(temporary);
            throw;
        }
    }
}
