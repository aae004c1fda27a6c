using System.CommandLine;
using System.CommandLine.Parsing;
using RadioLint.Text;

namespace RadioLint.Cli.Commands;

/// <summary>Says what is wrong with a command line, in our words and with the nearest that is right.</summary>
internal static class Misuse
{
    /// <summary>Throws unless the line can be carried out.</summary>
    public static void Refuse(string[] args, ParseResult parsed, Command root)
    {
        var command = parsed.CommandResult.Command;
        if (UnknownOption(args, parsed) is { } option)
            throw new CannotWorkException($"`{Name(command, root)}` has no option `{option}`", Advice(option, Options(command, root), command, root));
        if (parsed.UnmatchedTokens is [var token, ..])
        {
            throw command == root
                ? new CannotWorkException($"there is no command `{token}`", Advice(token, root.Subcommands.Select(each => each.Name), command, root))
                : new CannotWorkException($"`{Name(command, root)}` has no use for `{token}`", $"see `{Name(command, root)} --help`");
        }
        foreach (var error in parsed.Errors)
            throw new CannotWorkException(Words(error, command, root), $"see `{Name(command, root)} --help`");
        if (command == root)
            throw new CannotWorkException("no command is given", "see `radiolint --help`");
    }

    private static string Words(ParseError error, Command command, Command root) => error.SymbolResult switch
    {
        OptionResult { Option: var option } => $"`{option.Name}` takes one value: {option.HelpName ?? "a value"}",
        ArgumentResult { Argument: var argument, Parent: OptionResult { Option: var option } } => $"`{option.Name}` takes one value: {argument.HelpName ?? option.HelpName ?? "a value"}",
        ArgumentResult { Argument: var argument } => $"`{Name(command, root)}` needs {argument.HelpName ?? argument.Name}",
        _ when command.Arguments is [var argument, ..] => $"`{Name(command, root)}` needs {argument.HelpName ?? argument.Name}",
        _ => "no command is given",
    };

    // The parser takes an option that it does not know for a file: a file's name that starts so must follow `--`.
    private static string? UnknownOption(string[] args, ParseResult parsed)
    {
        var named = parsed.CommandResult.Command.Arguments.SelectMany(argument => parsed.All(argument)).Concat(parsed.UnmatchedTokens);
        var barrier = Array.IndexOf(args, "--");
        return named.FirstOrDefault(value =>
            value.Length > 1 && value[0] == '-' && (barrier < 0 || Array.IndexOf(args, value) is var at && at < barrier));
    }

    private static string Advice(string written, IEnumerable<string> known, Command command, Command root) =>
        Nearest.To(written, known) is { } nearest ? $"write `{nearest}`" : $"see `{Name(command, root)} --help`";

    private static IEnumerable<string> Options(Command command, Command root) =>
        command.Options.Concat(root.Options.Where(option => option.Recursive)).Select(option => option.Name);

    private static string Name(Command command, Command root) => command == root ? "radiolint" : $"radiolint {command.Name}";
}
