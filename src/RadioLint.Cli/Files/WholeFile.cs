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
}
