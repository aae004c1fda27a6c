using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>What `include` reaches: templates of the same folder by their file name, and nothing else.</summary>
internal sealed class TemplateNeighbours(Templates templates) : ITemplateLoader
{
    public string GetPath(TemplateContext context, SourceSpan callerSpan, string templateName) =>
        templates[templateName] is null
            ? throw new UnknownName(callerSpan, templateName, Text.Nearest.To(templateName, Templates.Names))
            : templateName;

    public string Load(TemplateContext context, SourceSpan callerSpan, string templatePath) => templates[templatePath] ?? "";

    public ValueTask<string?> LoadAsync(TemplateContext context, SourceSpan callerSpan, string templatePath) =>
        ValueTask.FromResult<string?>(Load(context, callerSpan, templatePath));
}
