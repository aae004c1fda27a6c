using RadioLint.Findings;

namespace RadioLint.Cli.Terminal;

/// <summary>Colour, where there is a terminal that wants it (ECMA-48 select graphic rendition).</summary>
internal sealed class Paint(bool hasColour)
{
    public static readonly Paint None = new(false);

    public string Weight(string text, Severity severity) => severity switch
    {
        Severity.Error => In("1;31", text),
        Severity.Warning => In("1;33", text),
        _ => In("1;36", text),
    };

    public string Strong(string text) => In("1", text);

    private string In(string rendition, string text) => hasColour ? $"\u001b[{rendition}m{text}\u001b[0m" : text;
}
