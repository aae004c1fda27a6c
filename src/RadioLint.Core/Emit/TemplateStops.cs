using Scriban.Parsing;
using Scriban.Syntax;

namespace RadioLint.Emit;

// What stops a template on our account. Of the engine's kind, because it wraps any other.

/// <summary>A name that is neither in the model nor set by the template.</summary>
internal sealed class UnknownName(SourceSpan span, string name, string? nearest) : ScriptRuntimeException(span, $"unknown name {name}")
{
    public string Name => name;

    public string? Nearest => nearest;
}

/// <summary>More output than a header can sensibly have.</summary>
internal sealed class OutputTooLong(SourceSpan span) : ScriptRuntimeException(span, "too much output");
