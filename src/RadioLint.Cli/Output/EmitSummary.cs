using RadioLint.Cli.Emit;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Output;

/// <summary>What `emit` did to each file, one line a file, and in all.</summary>
internal static class EmitSummary
{
    private const int StateWidth = 11;

    public static void Write(TextWriter output, EmitReport report, EmitOptions options)
    {
        var lines = Lines("written", report.Written)
            .Concat(Lines("unchanged", report.Unchanged))
            .Concat(Lines("stale", report.Stale))
            .Concat(Lines("edited", report.Edited))
            .Concat(Lines("left over", report.LeftOver));
        foreach (var line in lines)
            output.WriteLine(line);
        output.WriteLine(InAll(report));
        if (!report.Edited.IsEmpty && !options.Force && !options.CheckOnly)
            output.WriteLine("help: nothing is written; move what was edited by hand into the manifest or a template, or use `--force` to overwrite it");
        if (!report.LeftOver.IsEmpty)
            output.WriteLine("help: remove what is left over by hand: no node of the manifest uses it");
    }

    private static IEnumerable<string> Lines(string state, IEnumerable<string> files) =>
        files.Select(file => $"{state.PadRight(StateWidth)}{Printable.Text(file)}");

    private static string InAll(EmitReport report)
    {
        var counts = new (int Count, string State)[]
        {
            (report.Written.Length, "written"),
            (report.Unchanged.Length, "unchanged"),
            (report.Stale.Length, "stale"),
            (report.Edited.Length, "edited by hand"),
            (report.LeftOver.Length, "left over"),
        };
        var parts = counts.Where(each => each.Count > 0).Select(each => FormattableString.Invariant($"{each.Count} {each.State}")).ToList();
        return parts.Count == 0 ? "no files: the manifest has no node of its own" : $"in all {string.Join(", ", parts)}";
    }
}
