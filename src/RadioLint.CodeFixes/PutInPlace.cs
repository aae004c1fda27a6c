using System.Collections.Immutable;
using System.Composition;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>Puts what the plan says in the place of the marked expression: a constant, a name, a reader with the order in its name.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp), Shared]
public sealed class PutInPlace : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.CreateRange(new[]
    {
        HostRules.UnknownName, HostRules.LiteralRepeatsPlan, HostRules.LiteralContradictsPlan, HostRules.WrongByteOrder, HostRules.BufferDoesNotFit,
        HostRules.WaitAgainstTiming, HostRules.WrongSpiSettings, HostRules.OtherPinScheme, HostRules.CountUsedAsValue,
    }.Select(rule => rule.Id));

    protected override async Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic)
    {
        if (!diagnostic.Properties.TryGetValue(FixNotes.Replacement, out var all) || all is null
            || root.FindNode(diagnostic.Location.SourceSpan, getInnermostNodeForTie: true) is not ExpressionSyntax old
            || await context.Document.GetSemanticModelAsync(context.CancellationToken).ConfigureAwait(false) is not { } model)
        {
            return;
        }
        var candidates = all.Split('\n');
        var shown = diagnostic.Properties.TryGetValue(FixNotes.Shown, out var titles) && titles is not null ? titles.Split('\n') : candidates;
        for (var i = 0; i < candidates.Length; i++)
            Offer(context, root, diagnostic, $"Use {shown[i]}", old, Code(candidates[i], model, old.SpanStart).WithTriviaFrom(old), candidates.Length == 1 ? "" : candidates[i]);
    }
}
