using System.Text.RegularExpressions;
using Xunit;

namespace RadioLint.Cli.Tests.Support;

/// <summary>
/// Output that a person has read, kept in Snapshots. RADIOLINT_REWRITE=1 writes it anew; where CI is set that is refused, so that a run
/// there can only compare.
/// </summary>
internal static partial class Snapshot
{
    public static void Matches(string name, string text)
    {
        var file = Path.Combine(Repository.Snapshots, name + ".snap");
        var stable = RuleCount().Replace(text, "by # rules");
        if (IsRewriting(Environment.GetEnvironmentVariable))
            File.WriteAllText(file, stable);
        Assert.True(File.Exists(file), $"{name}.snap is missing; write it with RADIOLINT_REWRITE=1 and read it");
        Assert.Equal(File.ReadAllText(file), stable);
    }

    public static bool IsRewriting(Func<string, string?> environment)
    {
        if (environment("RADIOLINT_REWRITE") != "1")
            return false;
        return string.IsNullOrEmpty(environment("CI")) ? true : throw new InvalidOperationException("snapshots are not rewritten where CI is set");
    }

    // Rules are added all the time; how many there are is no matter of layout.
    [GeneratedRegex("by [0-9]+ rules")]
    private static partial Regex RuleCount();
}
