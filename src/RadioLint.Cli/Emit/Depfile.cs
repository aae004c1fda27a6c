using System.Text;

namespace RadioLint.Cli.Emit;

/// <summary>Which files are made again when which others change: as a rule for make and ninja, or as plain lists for other builds.</summary>
internal static class Depfile
{
    public static string Text(IEnumerable<string> targets, IEnumerable<string> prerequisites)
    {
        var text = new StringBuilder();
        text.AppendJoin(' ', targets.Select(Escaped)).Append(':');
        foreach (var one in prerequisites)
            text.Append(" \\\n  ").Append(Escaped(one));
        return text.Append('\n').ToString();
    }

    /// <summary>One path a line.</summary>
    public static string Lines(IEnumerable<string> paths) => string.Concat(paths.Select(path => path.Replace('\\', '/') + "\n"));

    // As make reads names: a blank and `#` after a backslash, `$` doubled. A backslash before neither is itself.
    private static string Escaped(string path) => path.Replace('\\', '/')
        .Replace("$", "$$", StringComparison.Ordinal).Replace("#", "\\#", StringComparison.Ordinal).Replace(" ", "\\ ", StringComparison.Ordinal);
}
