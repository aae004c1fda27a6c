using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Text;

namespace RadioLint.Cli.Commands;

/// <summary>The options that say how to judge; shared by all commands that check.</summary>
internal sealed class CheckTermsOptions
{
    private readonly Option<string> today = new("--today")
    {
        HelpName = "YYYY-MM-DD",
        Description = "the day that `until` of an `allow` entry is compared with, instead of the machine's",
    };

    private readonly Option<string[]> rules = new("--rule")
    {
        HelpName = "RLnnnn=SEVERITY",
        Description = "another severity for a rule: error, warning, info or silent; may be repeated, and wins over every file",
        AllowMultipleArgumentsPerToken = false,
        Arity = ArgumentArity.OneOrMore,
    };

    public void AddTo(Command command)
    {
        command.Add(rules);
        command.Add(today);
    }

    public CheckTerms Read(ParseResult parsed, Surroundings around) => new(Day(parsed.Only(today), around), Severities(parsed.All(rules)));

    private static DateTime Day(string? written, Surroundings around)
    {
        if (written is null)
            return around.Today();
        return DateTime.TryParseExact(written, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new CannotWorkException($"`--today` takes a day such as 2026-05-02, not `{written}`");
    }

    private static ImmutableDictionary<string, Severity> Severities(IEnumerable<string> settings)
    {
        var severities = ImmutableDictionary.CreateBuilder<string, Severity>(StringComparer.Ordinal);
        foreach (var setting in settings)
        {
            var (id, word) = setting.Split('=') is [var left, var right] ? (left, right) : (setting, "");
            var rule = RuleIds.Find(id);
            if (rule.IsFixed)
                throw new CannotWorkException($"{rule.Id} cannot be given another severity: what it finds keeps the manifest from being read as meant");
            severities[rule.Id] = word switch
            {
                "error" => Severity.Error,
                "warning" => Severity.Warning,
                "info" => Severity.Info,
                "silent" => Severity.Silent,
                _ => throw new CannotWorkException($"`--rule` takes a severity such as {rule.Id}=warning, not `{setting}`", "write error, warning, info or silent after the `=`"),
            };
        }
        return severities.ToImmutable();
    }
}

/// <summary>Rule IDs as people type them.</summary>
internal static class RuleIds
{
    /// <summary>The rule meant by `RL3001`, `rl3001` or `3001`.</summary>
    public static Descriptor Find(string written)
    {
        var id = written.ToUpperInvariant();
        if (Catalogue.Find(id) is { } rule || (rule = Catalogue.Find("RL" + id)) is not null)
            return rule;
        var nearest = Nearest.To(id, Catalogue.All.Select(each => each.Id));
        throw new CannotWorkException(
            $"there is no rule `{written}`", nearest is null ? "see `radiolint explain` for all rules" : $"the nearest is {nearest}: {Catalogue.Find(nearest)!.Title}");
    }
}
