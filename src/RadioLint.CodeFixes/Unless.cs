using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.CodeFixes;

/// <summary>`if (!call) leave;` in the place of a statement, as text: in the margin and with the line ends of the file.</summary>
internal static class Unless
{
    public static TextChange Fails(SourceText text, StatementSyntax statement, string call, string leave)
    {
        var line = text.Lines.GetLineFromPosition(statement.SpanStart);
        var margin = text.ToString(TextSpan.FromBounds(line.Start, statement.SpanStart));
        var end = text.ToString(TextSpan.FromBounds(line.End, line.EndIncludingLineBreak));
        // What stands on a line with others stays there.
        var between = margin.Trim().Length > 0 || end.Length == 0 ? " " : end + margin + (margin.EndsWith("\t", StringComparison.Ordinal) ? "\t" : "    ");
        return new(statement.Span, $"if (!{call}){between}{leave};");
    }
}
