using Xunit;

namespace RadioLint.Tests.Support;

/// <summary>Files that a person has read and that code must reproduce. RADIOLINT_REWRITE=1 writes them anew, never in CI.</summary>
public static class Golden
{
    public static void Compare(string file, string expected)
    {
        if (Environment.GetEnvironmentVariable("RADIOLINT_REWRITE") == "1" && Environment.GetEnvironmentVariable("CI") is null)
            File.WriteAllText(file, expected);
        Assert.True(File.Exists(file), $"{file} is missing; write it with RADIOLINT_REWRITE=1 and read it");
        Assert.Equal(expected, File.ReadAllText(file).Replace("\r\n", "\n", StringComparison.Ordinal));
    }
}
