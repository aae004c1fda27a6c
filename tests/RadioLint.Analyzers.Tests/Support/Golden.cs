using Xunit;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>Files that a person has read and that code must reproduce. RADIOLINT_REWRITE=1 writes them anew, never in CI.</summary>
public static class Golden
{
    public static bool Rewrites => Environment.GetEnvironmentVariable("RADIOLINT_REWRITE") == "1" && Environment.GetEnvironmentVariable("CI") is null;

    public static void Compare(string file, string made)
    {
        if (Rewrites)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            File.WriteAllText(file, made);
        }
        Assert.True(File.Exists(file), $"{file} is missing; write it with RADIOLINT_REWRITE=1 and read it");
        Assert.Equal(File.ReadAllText(file).Replace("\r\n", "\n", StringComparison.Ordinal), made);
    }
}
