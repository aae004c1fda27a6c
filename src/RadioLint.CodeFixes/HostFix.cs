using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeActions;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.CodeFixes;

/// <summary>A change of code that mends what a rule on C# has found. Nothing is offered that the compiler would complain of.</summary>
public abstract class HostFix : CodeFixProvider
{
    public override FixAllProvider GetFixAllProvider() => WellKnownFixAllProviders.BatchFixer;

    public sealed override async Task RegisterCodeFixesAsync(CodeFixContext context)
    {
        if (await context.Document.GetSyntaxRootAsync(context.CancellationToken).ConfigureAwait(false) is not { } root
            || await context.Document.GetSemanticModelAsync(context.CancellationToken).ConfigureAwait(false) is not { } model)
        {
            return;
        }
        foreach (var diagnostic in context.Diagnostics)
        {
            foreach (var offer in Offers(new(root, model, diagnostic, context.CancellationToken)))
            {
                if (Compiling.IsNoWorse(model, offer.Root, context.CancellationToken))
                    context.RegisterCodeFix(CodeAction.Create(offer.Title, _ => Task.FromResult(context.Document.WithSyntaxRoot(offer.Root)), offer.Key(diagnostic)), diagnostic);
            }
        }
    }

    /// <summary>What can be done about one finding; nothing where it is not certain that the result means what it should.</summary>
    private protected abstract IEnumerable<Offer> Offers(Found found);
}

/// <summary>A finding where it stands.</summary>
internal sealed record Found(SyntaxNode Root, SemanticModel Model, Diagnostic Diagnostic, CancellationToken Cancel)
{
    /// <summary>The innermost node that is marked.</summary>
    public SyntaxNode Marked => Root.FindNode(Diagnostic.Location.SourceSpan, getInnermostNodeForTie: true);

    public SourceText Text => Model.SyntaxTree.GetText(Cancel);

    /// <summary>The whole file with some text changed, as the compiler reads it.</summary>
    public SyntaxNode With(params TextChange[] changes) => Model.SyntaxTree.WithChangedText(Text.WithChanges(changes)).GetRoot(Cancel);

    /// <summary>What the analyzer says beside the place; null when it says nothing.</summary>
    public string? Note(string key) => Diagnostic.Properties.TryGetValue(key, out var note) ? note : null;
}

/// <summary>One way to mend a finding.</summary>
/// <param name="Title">Begins with a verb.</param>
/// <param name="Root">The whole file afterwards.</param>
/// <param name="Variant">Tells several offers for one finding apart: what is made for all of them at once has the same.</param>
internal sealed record Offer(string Title, SyntaxNode Root, string Variant = "")
{
    public string Key(Diagnostic diagnostic) => Variant.Length == 0 ? diagnostic.Id : $"{diagnostic.Id} {Variant}";
}
