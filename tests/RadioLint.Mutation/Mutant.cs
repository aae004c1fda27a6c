using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.Mutation;

/// <summary>One small change of the source.</summary>
/// <param name="Id">From 1, in the order of files and places.</param>
/// <param name="File">Below src/RadioLint.Core, with `/`.</param>
/// <param name="Class">The kind of change, as the tables name it.</param>
/// <param name="Span">What is replaced.</param>
/// <param name="Text">What takes its place.</param>
internal sealed record Mutant(int Id, string File, string Class, TextSpan Span, string Text)
{
    /// <summary>Line and column from 1.</summary>
    public (int Line, int Column) Place { get; init; }

    public string Before { get; init; } = "";

    /// <summary>What is copied with the change in it: a method, a property, or the value that a field starts with.</summary>
    public required MemberDeclarationSyntax Member { get; init; }

    /// <summary>The probe that tells a test to reach it.</summary>
    public int Probe { get; set; }

    public string Folder =>
        File.Split('/') switch
        {
            ["Rules", var module, _] => $"Rules/{module}",
            ["Rules", _] => "Rules, its own files",
            [var top, ..] => top,
            [] => "",
        };

    public override string ToString() => $"#{Id} {File}:{Place.Line}:{Place.Column} {Class}: {Short(Before)} -> {Short(Text)}";

    private static string Short(string text)
    {
        var line = string.Join(' ', text.Split([' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
        return line.Length <= 110 ? line : line[..107] + "...";
    }
}
