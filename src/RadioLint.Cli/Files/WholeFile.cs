using System.Text;

namespace RadioLint.Cli.Files;

/// <summary>Replaces files as a whole: whoever reads one meets the old one or the new one.</summary>
internal static class WholeFile
{
    public static void Replace(string path, byte[] bytes)
    {
        var temporary = path + ".new";
        try
        {
            File.WriteAllBytes(temporary, bytes);
            if (!OperatingSystem.IsWindows() && File.Exists(path))
                File.SetUnixFileMode(temporary, File.GetUnixFileMode(path));
            File.Move(temporary, path, overwrite: true);
        }
        catch
        {
            File.Delete(temporary);
            throw;
        }
    }

    /// <summary>A changed text as a file, with the byte order mark that the file had.</summary>
    public static byte[] WithMark(byte[] original, string text)
    {
        var mark = Encoding.UTF8.Preamble;
        var body = Encoding.UTF8.GetBytes(text);
        return original.AsSpan().StartsWith(mark) ? [.. mark, .. body] : body;
    }
}
