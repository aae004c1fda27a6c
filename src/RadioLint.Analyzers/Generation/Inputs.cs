using Microsoft.CodeAnalysis.Diagnostics;

namespace RadioLint.Analyzers.Generation;

/// <summary>A file that the project hands to the compiler.</summary>
/// <param name="Path">As the compiler has it, with '/' between folders.</param>
internal sealed record InputFile(string Path, string Text);

/// <summary>What the project sets.</summary>
/// <param name="Namespace">Of the generated classes; dotted identifiers.</param>
/// <param name="Access">`internal` or `public`.</param>
internal sealed record ProjectSettings(string Namespace, string Access)
{
    public static ProjectSettings Of(AnalyzerConfigOptions options, string assembly)
    {
        string? Property(string name) => options.TryGetValue("build_property." + name, out var value) && value.Trim().Length > 0 ? value.Trim() : null;
        return new(
            CSharp.Namespace(Property("RadioLintNamespace") ?? Property("RootNamespace") ?? assembly),
            string.Equals(Property("RadioLintAccess"), "public", StringComparison.OrdinalIgnoreCase) ? "public" : "internal");
    }
}

/// <summary>What the program is compiled with.</summary>
/// <param name="Language">The language version in words.</param>
internal sealed record Platform(bool HasRecordStructs, string Language, bool HasSpans, bool HasSpi)
{
    /// <summary>Why nothing can be generated; null when all is there.</summary>
    public string? Lack => !HasRecordStructs ? $"C# {Language}, and the generated code needs C# 10 or later; set LangVersion"
        : !HasSpans ? "no System.ReadOnlySpan, which the generated code needs; reference the package System.Memory"
        : null;
}
