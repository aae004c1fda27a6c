using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeActions;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Rules;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>Carries out the remedies of findings on a manifest, in it and in the files that it includes.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp, DocumentKinds = new[] { nameof(TextDocumentKind.AdditionalDocument) }, DocumentExtensions = new[] { ".yaml", ".yml", ".json" })]
public sealed class MendManifest : CodeFixProvider
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.CreateRange(Catalogue.OfManifests.Select(rule => rule.Id));

    // Each remedy of a manifest is for a person to accept.
    public override FixAllProvider? GetFixAllProvider() => null;

    public override async Task RegisterCodeFixesAsync(CodeFixContext context)
    {
        var project = context.TextDocument.Project;
        foreach (var diagnostic in context.Diagnostics)
        {
            foreach (var fix in ManifestFixNotes.Read(diagnostic.Properties))
            {
                if (await ChangedAsync(project, fix, context.CancellationToken).ConfigureAwait(false) is { } changed)
                    context.RegisterCodeFix(CodeAction.Create(fix.Title, _ => Task.FromResult(changed), $"{diagnostic.Id} {fix.Title}"), diagnostic);
            }
        }
    }

    // Null when a file is not the compiler's, or is no longer what was judged.
    private static async Task<Solution?> ChangedAsync(Project project, ManifestFixNotes.NotedFix fix, CancellationToken cancel)
    {
        if (fix.Edits.IsEmpty)
            return null;
        var solution = project.Solution;
        foreach (var edits in fix.Edits.GroupBy(edit => edit.File, StringComparer.Ordinal))
        {
            if (project.AdditionalDocuments.FirstOrDefault(one => one.FilePath?.Replace('\\', '/') == edits.Key) is not { } file)
                return null;
            var text = await file.GetTextAsync(cancel).ConfigureAwait(false);
            if (edits.Any(edit => edit.Start + edit.Old.Length > text.Length || text.ToString(new TextSpan(edit.Start, edit.Old.Length)) != edit.Old))
                return null;
            var changes = edits.OrderBy(edit => edit.Start).Select(edit => new TextChange(new TextSpan(edit.Start, edit.Old.Length), edit.New));
            solution = solution.WithAdditionalDocumentText(file.Id, text.WithChanges(changes));
        }
        return solution;
    }
}
