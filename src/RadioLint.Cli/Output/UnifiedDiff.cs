using DiffPlex.Renderer;

namespace RadioLint.Cli.Output;

/// <summary>The difference between two texts in the unified form (POSIX `diff -u`), which `patch` takes.</summary>
internal static class UnifiedDiff
{
    private const int Context = 3;

    public static void Write(TextWriter output, string name, string before, string after) =>
        output.Write(UnidiffRenderer.GenerateUnidiff(before, after, $"a/{name}", $"b/{name}", ignoreWhitespace: false, ignoreCase: false, Context));
}
