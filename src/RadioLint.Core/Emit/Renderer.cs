using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using Scriban;
using Scriban.Functions;
using Scriban.Parsing;
using Scriban.Runtime;
using Scriban.Syntax;

namespace RadioLint.Emit;

/// <summary>Text from a template, or the fault that stopped it. One renderer serves a whole run; templates are parsed once.</summary>
public sealed class Renderer
{
    private const int LoopRounds = 100_000;
    private const int Levels = 32;

    private readonly Templates templates;
    private TemplateContext context;
    private readonly Dictionary<string, (Template? Template, ImmutableArray<Finding> Faults)> parsed = new(StringComparer.Ordinal);
    private readonly Dictionary<string, SourceText> sources = new(StringComparer.Ordinal);

    public Renderer(Templates templates)
    {
        this.templates = templates;
        context = NewContext();
    }

    /// <summary>The functions that templates have besides the model.</summary>
    public static ImmutableArray<string> Functions { get; } = ["identifier", "in_comment", "include", "quoted", "upper"];

    /// <summary>The rendered text with LF line ends, or null and what is wrong with the template.</summary>
    public (string? Text, ImmutableArray<Finding> Faults) Render(string name, ScriptObject model)
    {
        var (template, faults) = Parse(name);
        if (template is null)
            return (null, faults);
        var output = new BoundedOutput(context);
        context.PushOutput(output);
        context.PushGlobal(model);
        context.PushSourceFile(name);
        try
        {
            context.Evaluate(template.Page!);
            context.PopSourceFile();
            context.PopGlobal();
            context.PopOutput();
            return (output.ToString(), []);
        }
        catch (ScriptRuntimeException fault)
        {
            // Whatever the template was in the middle of is still on the engine's stacks.
            context = NewContext();
            return (null, [Explain(fault)]);
        }
    }

    private TemplateContext NewContext()
    {
        // Our functions alone: no clock, no files, no evaluation of text.
        var functions = new ScriptObject
        {
            ["identifier"] = new TemplateFunction(C.Identifier),
            ["in_comment"] = new TemplateFunction(C.InComment),
            ["include"] = new IncludeFunction(),
            ["quoted"] = new TemplateFunction(C.Quoted),
            ["upper"] = new TemplateFunction(C.Upper),
        };
        var fresh = new TemplateContext(functions)
        {
            StrictVariables = true,
            EnableRelaxedMemberAccess = false,
            EnableRelaxedTargetAccess = false,
            EnableRelaxedFunctionAccess = false,
            EnableRelaxedIndexerAccess = false,
            LoopLimit = LoopRounds,
            RecursiveLimit = Levels,
            ObjectRecursionLimit = Levels,
            // One text is refused at the bound, not cut: left to itself the engine cuts it and adds dots.
            LimitToString = BoundedOutput.Most,
            OnStringLimit = ScriptLimitBehavior.Throw,
            // Ours counts each file for itself; the engine's would count on through a run, and cut.
            OutputLimit = 0,
            NewLine = "\n",
            TemplateLoader = new TemplateNeighbours(templates),
            TryGetVariable = NoVariable,
            TryGetMember = NoMember,
        };
        fresh.PushCulture(CultureInfo.InvariantCulture);
        return fresh;
    }

    private (Template? Template, ImmutableArray<Finding> Faults) Parse(string name)
    {
        if (parsed.TryGetValue(name, out var known))
            return known;
        var text = templates[name] ?? throw new ArgumentException($"there is no template {name}", nameof(name));
        var template = Template.Parse(text, name);
        known = template.HasErrors ? (null, [Explain(template.Messages)]) : (template, []);
        parsed.Add(name, known);
        return known;
    }

    private Finding Explain(ScriptRuntimeException fault) => fault switch
    {
        UnknownName unknown => TemplateFault.UnknownName(PlaceOf(unknown.Span), unknown.Name, unknown.Nearest),
        OutputTooLong => TemplateFault.TooLong(PlaceOf(fault.Span), BoundedOutput.Most),
        ScriptParserRuntimeException { ParserMessages: { Count: > 0 } messages } => Explain(messages),
        _ => TemplateFault.At(PlaceOf(fault.Span), Plain(fault.OriginalMessage)),
    };

    private Finding Explain(LogMessageBag messages)
    {
        var first = messages.First(message => message.Type is ParserMessageType.Error);
        return TemplateFault.At(PlaceOf(first.Span), Plain(first.Message));
    }

    private bool NoVariable(TemplateContext here, SourceSpan span, ScriptVariable variable, out object? value) =>
        throw new UnknownName(span, variable.Name, Nearest.To(variable.Name, here.CurrentGlobal!.GetMembers().Concat(Functions)));

    private bool NoMember(TemplateContext here, SourceSpan span, object target, string member, out object? value) =>
        throw new UnknownName(span, member, target is IScriptObject known ? Nearest.To(member, known.GetMembers()) : null);

    private Place PlaceOf(SourceSpan span)
    {
        var name = span.FileName ?? "";
        if (!sources.TryGetValue(name, out var source))
            sources.Add(name, source = new(name, templates[name] ?? ""));
        var start = Math.Clamp(span.Start.Offset, 0, source.Text.Length);
        var end = Math.Clamp(span.End.Offset + 1, start, source.Text.Length);
        return new(source, start, end - start);
    }

    // One line of ours: no full stop, no line break.
    private static string Plain(string message)
    {
        var line = message.Split('\n')[0].Trim().TrimEnd('.');
        return line.Length == 0 ? "the template cannot be read" : char.ToLowerInvariant(line[0]) + line[1..];
    }
}
