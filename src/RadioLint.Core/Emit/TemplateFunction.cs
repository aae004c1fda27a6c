using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;
using Scriban.Syntax;

namespace RadioLint.Emit;

/// <summary>A function of one text that templates may call. Delegates would need reflection.</summary>
internal sealed class TemplateFunction(Func<string, string> apply) : IScriptCustomFunction
{
    public int RequiredParameterCount => 1;

    public int ParameterCount => 1;

    public ScriptVarParamKind VarParamKind => ScriptVarParamKind.Direct;

    public Type ReturnType => typeof(string);

    public ScriptParameterInfo GetParameterInfo(int index) => new(typeof(object), "text");

    public object? Invoke(TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement) =>
        apply(context.ObjectToString(arguments[0]) ?? "");

    public ValueTask<object?> InvokeAsync(
        TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement) =>
        ValueTask.FromResult(Invoke(context, callerContext, arguments, blockStatement));
}
