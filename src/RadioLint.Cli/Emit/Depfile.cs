using System.Text;

namespace RadioLint.Cli.Emit;

/// <summary>A rule for make and ninja: which files are made again when which others change.</summary>
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

    // As make reads names: a blank and `#` after a backslash, `$` doubled. A backslash before neither is itself.
    private static string Escaped(string path) => path.Replace('\\', '/')
        .Replace("$", "$$", StringComparison.Ordinal).Replace("#", "\\#", StringComparison.Ordinal).Replace(" ", "\\ ", StringComparison.Ordinal);
}
