using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Planning;

namespace RadioLint.Cli.Fill;

/// <summary>For people: a line for each choice with its reason, then what stays open, then what written values cost.</summary>
internal static class FillText
{
    /// <param name="isWritten">True when the file, or standard output, has the filled text now.</param>
    public static void Write(TextWriter output, FillOutcome outcome, bool isWritten)
    {
        if (outcome.IsImpossible)
        {
            WriteConflict(output, outcome);
            return;
        }
        foreach (var choice in outcome.Written.Made)
            Line(output, $"{choice.Key}{FillWords.Of(choice.Target)}: {choice.Value}{Because(choice)}");
        // They are the same whenever they are asked for: of interest beside what is new.
        foreach (var choice in outcome.IsChanged ? outcome.Plan.Derived : [])
            Line(output, $"follows: {choice.Key}{FillWords.Of(choice.Target)}: {choice.Value}{Because(choice)}");
        foreach (var (choice, why) in outcome.Written.Left)
            Line(output, $"left: {choice.Key}{FillWords.Of(choice.Target)}: {choice.Value} is not written: {why}");
        foreach (var missing in outcome.Missing)
            Line(output, $"left: {missing}");
        foreach (var kept in outcome.Plan.Kept)
            Line(output, $"kept: {kept}");
        foreach (var value in outcome.Plan.Fixed)
        {
            var costs = Points(value.Cost - value.IfFree);
            Line(output, $"{FillWords.Where(outcome.Moved(value.Place, isWritten))}: {value.Key}{FillWords.Of(value.Target)}, written as {value.Value}, costs {costs}; with {value.Better} the plan would cost {Points(value.IfFree)}");
        }
        foreach (var finding in outcome.New)
            Line(output, $"{FillWords.Where(finding.Place)}: {TextReport.Word(finding.Severity)} {finding.Rule.Id}: {finding.Message}");
        Line(output, Summary(outcome, isWritten ? "set" : "would be set"));
    }

    private static void WriteConflict(TextWriter output, FillOutcome outcome)
    {
        foreach (var demand in outcome.Plan.Conflict)
            Line(output, $"{FillWords.Where(demand.Place)}: {demand.Words}");
        Line(output, $"{outcome.File.Name}: not filled: {TextReport.Count(outcome.Plan.Conflict.Length, "demand")} cannot be met together; without any one of them the rest can");
    }

    private static string Summary(FillOutcome outcome, string verb)
    {
        var said = outcome.IsChanged ? $"{TextReport.Count(outcome.Written.Made.Length, "value")} {verb}"
            : outcome.IsPartial ? "nothing set" : "nothing is open";
        var cost = $"the plan costs {Points(outcome.Plan.Cost)}";
        var bound = outcome.Plan.Bound == outcome.Plan.Cost ? ", and none costs less" : FormattableString.Invariant($", and none less than {outcome.Plan.Bound}");
        var stays = outcome.Written.Left.Length + outcome.Missing.Length;
        return $"{outcome.File.Name}: {said}{(stays > 0 ? FormattableString.Invariant($", {stays} left to you") : "")}; {cost}{bound}";
    }

    private static string Points(long count) => FormattableString.Invariant($"{count} point{(count == 1 ? "" : "s")}");

    private static string Because(Choice choice) => choice.Reason.Length == 0 ? "" : $" ({choice.Reason})";

    private static void Line(TextWriter output, string text) => output.WriteLine(Printable.Text(text));
}
