using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using RadioLint.Text;

namespace RadioLint.Cli.Commands;

/// <summary>An option that takes one of a few words.</summary>
internal sealed class Choice<T>(string name, string description, params (string Word, T Value)[] words)
{
    public Option<string> Option { get; } = new(name) { Description = description, HelpName = string.Join("|", words.Select(word => word.Word)) };

    /// <summary>What is chosen; the first when the option is absent.</summary>
    public T Read(ParseResult parsed)
    {
        if (parsed.Only(Option) is not { } written)
            return words[0].Value;
        foreach (var (word, value) in words)
        {
            if (word == written)
                return value;
        }
        var nearest = Nearest.To(written, words.Select(word => word.Word));
        throw new CannotWorkException(
            $"`{name}` takes {string.Join(", ", words.Select(word => word.Word))}, not `{written}`", nearest is null ? null : $"write `{name} {nearest}`");
    }
}

/// <summary>Values as they were written: no conversion, so none that would need reflection.</summary>
internal static class Written
{
    public static string? Only(this ParseResult parsed, Option option) => parsed.GetResult(option) is { Tokens: [var token, ..] } ? token.Value : null;

    public static string? Only(this ParseResult parsed, Argument argument) => parsed.All(argument).FirstOrDefault();

    public static IEnumerable<string> All(this ParseResult parsed, Option option) => Values(parsed.GetResult(option));

    public static IEnumerable<string> All(this ParseResult parsed, Argument argument) => Values(parsed.GetResult(argument));

    /// <summary>A whole number from 1 on; null where the option is not given.</summary>
    public static int? Number(this ParseResult parsed, Option option, int most)
    {
        if (parsed.Only(option) is not { } written)
            return null;
        return int.TryParse(written, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0 && number <= most
            ? number
            : throw new CannotWorkException(FormattableString.Invariant($"`{option.Name}` takes a number from 1 to {most}, not `{written}`"));
    }

    public static bool Has(this ParseResult parsed, Option option) => parsed.GetResult(option) is { Implicit: false };

    private static IEnumerable<string> Values(SymbolResult? result) => result is null ? [] : result.Tokens.Select(token => token.Value);
}
