using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>Puts what the plan says in the place of the marked expression: a constant, a name, a reader with the order in its name.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp)]
public sealed class PutInPlace : HostFix
{
    private static readonly FixAllProvider Certain = FixAllProvider.Create(AllAsync);

    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.CreateRange(new[]
    {
        HostRules.UnknownName, HostRules.LiteralRepeatsPlan, HostRules.LiteralContradictsPlan, HostRules.WrongByteOrder, HostRules.BufferDoesNotFit,
        HostRules.WaitAgainstTiming, HostRules.WrongSpiSettings, HostRules.OtherPinScheme, HostRules.CountUsedAsValue,
    }.Select(rule => rule.Id));

    public override FixAllProvider GetFixAllProvider() => Certain;

    private protected override IEnumerable<Offer> Offers(Found found)
    {
        var changes = Changes(found);
        var titles = found.Note(FixNotes.Shown)?.Split(FixNotes.Between);
        for (var i = 0; i < changes.Count && i < titles?.Length; i++)
            yield return new($"Use {titles[i]}", found.With(changes[i]), changes.Count == 1 ? "" : titles[i]);
    }

    // As text, so that nothing beside it changes, and the result is what the compiler reads. One for each that may be meant.
    private static List<TextChange> Changes(Found found) => found.Note(FixNotes.Replacement) is { } all && found.Marked is ExpressionSyntax old
        ? all.Split(FixNotes.Between).Select(code => new TextChange(old.Span, Shortened.At(code, found.Model, old.SpanStart))).ToList()
        : [];

    // All findings of one rule in a file; where several may be meant, a person chooses each time.
    private static async Task<Document?> AllAsync(FixAllContext context, Document document, ImmutableArray<Diagnostic> diagnostics)
    {
        var cancel = context.CancellationToken;
        if (await document.GetSyntaxRootAsync(cancel).ConfigureAwait(false) is not { } root || await document.GetSemanticModelAsync(cancel).ConfigureAwait(false) is not { } model)
            return document;
        // No key: nothing was offered at the finding that this began with, and it is about one rule.
        var rule = context.CodeActionEquivalenceKey?.Split(' ')[0];
        var changes = new List<TextChange>();
        foreach (var diagnostic in diagnostics.Where(one => rule is null || one.Id == rule).OrderBy(one => one.Location.SourceSpan.Start))
        {
            var found = new Found(root, model, diagnostic, cancel);
            if (Changes(found) is not [var change] || !Compiling.IsNoWorse(model, found.With(change), cancel))
                continue;
            // What stands within another is found again when that is done.
            if (changes.Count == 0 || changes[changes.Count - 1].Span.End <= change.Span.Start)
                changes.Add(change);
        }
        return document.WithText((await document.GetTextAsync(cancel).ConfigureAwait(false)).WithChanges(changes));
    }
}
