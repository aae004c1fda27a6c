using RadioLint.Cli.Emit;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;

namespace RadioLint.Cli.Output;

/// <summary>
/// Errors as MSBuild picks them out of what a tool prints: `FILE(LINE,COLUMN): error CODE: TEXT`, one line each (its documentation,
/// "MSBuild diagnostic format for tasks").
/// </summary>
internal static class BuildReport
{
    public static void Write(TextWriter output, Finding finding)
    {
        var place = finding.Place;
        output.WriteLine(FormattableString.Invariant(
            $"{Printable.Text(place.Source.Name)}({place.From.Line},{place.From.Column}): {TextReport.Word(finding.Severity)} {finding.Rule.Id}: {Printable.Text(finding.Message)}; {Printable.Text(finding.Help)}"));
    }

    /// <summary>Headers that are not what they should be, after a run that had to leave them so.</summary>
    public static void Write(TextWriter output, EmitReport report, EmitOptions options)
    {
        foreach (var file in report.Edited)
            output.WriteLine($"{Printable.Text(file)}: error: this header was edited by hand, or was issued from no manifest; move the edit into the manifest or a template and delete the file");
        foreach (var file in options.CheckOnly ? report.Stale : [])
            output.WriteLine($"{Printable.Text(file)}: error: this file is missing or older than the manifest; emit it again");
    }
}
