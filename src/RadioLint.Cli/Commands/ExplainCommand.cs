using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Rules;

namespace RadioLint.Cli.Commands;

/// <summary>`explain`: the page of a rule, or the list of all.</summary>
internal static class ExplainCommand
{
    public static Verb Make()
    {
        var ids = new Argument<string[]>("rules")
        {
            HelpName = "RLnnnn",
            Description = "rules to explain; nothing lists all of them",
            Arity = ArgumentArity.ZeroOrMore,
        };
        var command = new Command("explain", "says what a rule finds, why it hurts and what to do") { ids };
        return new(command, Examples, ImmutableArray<string>.Empty, (parsed, around) =>
        {
            var rules = parsed.All(ids).Select(RuleIds.Find).ToList();
            var paint = new Paint(around.HasColour);
            if (rules.Count == 0)
                ListAll(around.Results, paint);
            for (var i = 0; i < rules.Count; i++)
            {
                if (i > 0)
                    around.Results.WriteLine();
                RulePage.Write(around.Results, RulePage.Read(rules[i]), paint, Math.Min(around.Width ?? Layout.Columns, Layout.Columns));
            }
            return ExitStatus.Passed;
        });
    }

    private static void ListAll(TextWriter output, Paint paint)
    {
        foreach (var rule in Catalogue.All)
            output.WriteLine($"{rule.Id}  {paint.Weight(TextReport.Word(rule.Severity).PadRight(7), rule.Severity)}  {rule.Title}");
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint explain RL3001", "one rule, with an example that fails and one that passes"),
        new Example("radiolint explain RL3001 RL3002", "several"),
        new Example("radiolint explain", "the IDs, severities and titles of all rules"));
}
