using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeActions;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace RadioLint.CodeFixes;

/// <summary>A change of code that mends what a rule on C# has found.</summary>
public abstract class HostFix : CodeFixProvider
{
    public sealed override FixAllProvider GetFixAllProvider() => WellKnownFixAllProviders.BatchFixer;

    public sealed override async Task RegisterCodeFixesAsync(CodeFixContext context)
    {
        if (await context.Document.GetSyntaxRootAsync(context.CancellationToken).ConfigureAwait(false) is not { } root)
            return;
        foreach (var diagnostic in context.Diagnostics)
            await OfferAsync(context, root, diagnostic).ConfigureAwait(false);
    }

    /// <summary>Registers what can be done about one finding; nothing where it is not certain that the result means what it should.</summary>
    protected abstract Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic);

    /// <summary>Offers to put one node in the place of another.</summary>
    /// <param name="variant">Tells several offers for one finding apart: what is made for all of them at once has the same.</param>
    protected static void Offer(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic, string title, SyntaxNode old, SyntaxNode now, string variant = "") => context.RegisterCodeFix(
        CodeAction.Create(title, _ => Task.FromResult(context.Document.WithSyntaxRoot(root.ReplaceNode(old, now))), equivalenceKey: $"{diagnostic.Id} {variant}"),
        diagnostic);

    /// <summary>C# whose names are given in full, each made as short as it still means the same at the place.</summary>
    protected static ExpressionSyntax Code(string text, SemanticModel model, int place) =>
        SyntaxFactory.ParseExpression(FullName.Replace(text, name => Shortest(name.Value, model, place)));

    private static string Shortest(string name, SemanticModel model, int place)
    {
        if (Meaning(name, model, place) is not { } meant)
            return name;
        var parts = name.Split('.');
        for (var from = parts.Length - 1; from >= 0; from--)
        {
            var shorter = string.Join(".", parts.Skip(from)).Replace("global::", "");
            if (SymbolEqualityComparer.Default.Equals(Meaning(shorter, model, place), meant))
                return shorter;
        }
        return name;
    }

    // Of a method without its arguments, one of its overloads stands for all.
    private static ISymbol? Meaning(string name, SemanticModel model, int place)
    {
        var info = model.GetSpeculativeSymbolInfo(place, SyntaxFactory.ParseExpression(name), SpeculativeBindingOption.BindAsExpression);
        return info.Symbol ?? info.CandidateSymbols.FirstOrDefault();
    }

    private static readonly Regex FullName = new(@"global::[\w.]+", RegexOptions.CultureInvariant);
}
