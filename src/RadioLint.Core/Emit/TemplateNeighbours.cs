using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>What `include` reaches: templates of the same folder by their file name, and nothing else. Each is read once a run.</summary>
internal sealed class TemplateNeighbours(Templates templates) : ITemplateLoader
{
    private readonly Dictionary<string, string?> read = new(StringComparer.Ordinal);

    public string GetPath(TemplateContext context, SourceSpan callerSpan, string templateName) =>
        TextOf(templateName) is null
            ? throw new UnknownName(callerSpan, templateName, Text.Nearest.To(templateName, Templates.Names))
            : templateName;

    public string Load(TemplateContext context, SourceSpan callerSpan, string templatePath) => TextOf(templatePath) ?? "";

    public ValueTask<string?> LoadAsync(TemplateContext context, SourceSpan callerSpan, string templatePath) =>
        ValueTask.FromResult<string?>(Load(context, callerSpan, templatePath));

    // The engine asks for the path at every include, each time through.
    private string? TextOf(string name)
    {
        if (!read.TryGetValue(name, out var text))
            read.Add(name, text = templates[name]);
        return text;
    }
}
