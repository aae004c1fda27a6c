using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Commands;

/// <summary>A command's help: what it is for, lines to try, then every argument and option that it takes.</summary>
internal static class HelpPage
{
    private const string Indent = "  ";
    private const int NameColumn = 26;

    private static readonly ImmutableArray<Example> First = ImmutableArray.Create(
        new Example("radiolint check", "look for faults in every manifest below this folder"),
        new Example("radiolint explain RL3001", "what a finding means, and what to do about it"),
        new Example("radiolint emit hives.radio.yaml --out firmware", "write a matched header for each node"));

    /// <summary>The page of one command, or of the program when there is none.</summary>
    public static void Write(TextWriter output, RootCommand root, Verb? verb, ImmutableArray<Verb> verbs)
    {
        var command = verb?.Command ?? root;
        var name = verb is null ? "radiolint" : $"radiolint {command.Name}";
        Paragraph(output, $"{name} {command.Description}", "");
        output.WriteLine();
        output.WriteLine("To try");
        foreach (var example in verb?.Examples ?? First)
        {
            output.WriteLine($"{Indent}{example.Line}");
            Paragraph(output, example.Does, Indent + Indent + Indent);
        }
        if (verb is null)
            Section(output, "Commands", verbs.Select(each => (each.Command.Name, each.Command.Description ?? "")));
        Section(output, "What it takes", command.Arguments.Select(argument => (Term(argument), argument.Description ?? "")));
        Section(output, "Options", Options(command, root).Select(option => (Term(option), option.Description ?? "")));
        foreach (var remark in verb?.Remarks ?? [ExitStatuses, "`radiolint COMMAND --help` says more about one command."])
        {
            output.WriteLine();
            Paragraph(output, remark, "");
        }
    }

    /// <summary>The same for every command.</summary>
    public const string ExitStatuses =
        "Exit status: 0 nothing at or above the fail level, 1 something at or above it, 2 the work could not be done, 3 a defect of radiolint.";

    private static IEnumerable<Option> Options(Command command, RootCommand root) =>
        command == root ? root.Options : command.Options.Concat(root.Options.Where(option => option.Recursive));

    private static string Term(Argument argument) => argument.Arity switch
    {
        { MaximumNumberOfValues: > 1, MinimumNumberOfValues: 0 } => $"[{argument.HelpName}]...",
        { MaximumNumberOfValues: > 1 } => $"{argument.HelpName}...",
        { MinimumNumberOfValues: 0 } => $"[{argument.HelpName}]",
        _ => argument.HelpName ?? argument.Name,
    };

    private static string Term(Option option)
    {
        var names = option.Aliases.Count == 0 ? option.Name : $"{option.Name}, {option.Aliases.Order(StringComparer.Ordinal).Last()}";
        return option.HelpName is { } value ? $"{names} {value}" : names;
    }

    private static void Section(TextWriter output, string heading, IEnumerable<(string Term, string Says)> rows)
    {
        var isFirst = true;
        foreach (var (term, says) in rows)
        {
            if (isFirst)
            {
                output.WriteLine();
                output.WriteLine(heading);
                isFirst = false;
            }
            var head = Indent + term;
            var others = new string(' ', NameColumn);
            if (head.Length + 2 > NameColumn)
            {
                output.WriteLine(head);
                head = "";
            }
            foreach (var line in Layout.Wrap(says, Layout.Columns, head.PadRight(NameColumn), others))
                output.WriteLine(line);
        }
    }

    private static void Paragraph(TextWriter output, string text, string indent)
    {
        foreach (var line in Layout.Wrap(text, Layout.Columns, indent, indent))
            output.WriteLine(line);
    }
}
