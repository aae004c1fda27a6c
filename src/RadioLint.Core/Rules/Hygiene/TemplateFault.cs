using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8203: a template of the emitted headers does not parse, names what does not exist, or breaks a bound.</summary>
public static class TemplateFault
{
    public static readonly Descriptor Rule = new(
        "RL8203", Severity.Error, "Template uses a name that does not exist",
        "the names of docs/templates.md; at most 100,000 rounds of loops, 32 levels and 1 MiB of output a file (own bounds)", "0.1");

    public static Finding UnknownName(Place place, string name, string? nearest) =>
        new(Rule, place, $"the template uses `{name}`, which does not exist here",
            nearest is null ? "use a name of docs/templates.md" : $"write `{nearest}`");

    public static Finding At(Place place, string fault) => new(Rule, place, fault, "mend the template at this place");

    public static Finding TooLong(Place place, int most) =>
        new(Rule, place, FormattableString.Invariant($"the file grows beyond {most} bytes here"), "look for a loop that repeats too much");
}
