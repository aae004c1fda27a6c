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

}
