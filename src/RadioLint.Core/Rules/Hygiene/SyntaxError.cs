using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8001: the file cannot be read as YAML or JSON, or breaks a bound on size, depth or aliases.</summary>
public static class SyntaxError
{
    public static readonly Descriptor Rule = new(
        "RL8001", Severity.Error, "File does not parse",
        "YAML 1.2.2 and RFC 8259; at most 16 MiB, 64 levels, 1,000,000 values, 100,000 of them by aliases, 10,000 faults (own bounds)", "0.1")
    {
        IsFixed = true,
    };

    public static Finding At(Place place, string fault) =>
        new(Rule, place, fault, "mend this place first; reading stops here, so later faults are not shown yet");
}
