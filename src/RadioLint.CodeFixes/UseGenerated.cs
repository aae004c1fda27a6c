using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>
/// RL9006: reads the generated payload instead of a struct of the program's own. Only where every use of the variable reads a field that the
/// generated one has as a count of the same type, so that what is computed from it stays as it was meant. Where the old call threw, the new code
/// throws the same.
/// </summary>
[ExportCodeFixProvider(LanguageNames.CSharp)]
public sealed class UseGenerated : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.StructOfOtherLayout.Id);

    private protected override IEnumerable<Offer> Offers(Found found)
    {
        if (found.Note(FixNotes.GeneratedType) is not { } name
            || found.Marked is not InvocationExpressionSyntax call
            || found.Model.GetSymbolInfo(call, found.Cancel).Symbol is not IMethodSymbol { ContainingType.Name: "MemoryMarshal" } method
            || found.Model.GetSpeculativeTypeInfo(call.SpanStart, SyntaxFactory.ParseTypeName(name), SpeculativeBindingOption.BindAsTypeOrNamespace).Type is not INamedTypeSymbol generated)
        {
            yield break;
        }
        var changes = (method.Name, call.ArgumentList.Arguments) switch
        {
            ("Read", [{ NameColon: null } bytes]) => Instead(found, call, name, bytes, generated),
            ("TryRead", [{ NameColon: null } bytes, { NameColon: null, Expression: DeclarationExpressionSyntax { Designation: SingleVariableDesignationSyntax variable } }]) =>
                Changes(found, variable, generated, new(call.Span, TryRead(found, call, name, bytes, variable.Identifier))),
            _ => null,
        };
        if (changes is null)
            yield break;
        var shown = generated.ToDisplayString(Nested);
        var title = method.Name == "Read" ? $"Read {shown}, and throw where these bytes are none" : $"Read {shown}";
        yield return new(title, found.With([.. changes]));
    }

    private static readonly SymbolDisplayFormat Nested = new(typeQualificationStyle: SymbolDisplayTypeQualificationStyle.NameAndContainingTypes);

    // As a statement of its own: the variable is there for all that follows.
    private static List<TextChange>? Instead(Found found, InvocationExpressionSyntax call, string name, ArgumentSyntax bytes, INamedTypeSymbol generated)
    {
        if (call.Parent?.Parent is not VariableDeclaratorSyntax { Parent.Parent: LocalDeclarationStatementSyntax { Declaration.Variables: [{ } variable] } declaration } || variable.Initializer?.Value != call)
            return null;
        var fault = bytes.Expression is IdentifierNameSyntax ? $"nameof({bytes.Expression})" : "";
        var leave = Shortened.At($"throw new global::System.ArgumentOutOfRangeException({fault})", found.Model, call.SpanStart);
        // A comment before the call stays.
        var before = found.Text.ToString(TextSpan.FromBounds(variable.Initializer.EqualsToken.Span.End, call.SpanStart)).TrimStart();
        return Changes(found, variable, generated, Unless.Fails(found.Text, declaration, before + TryRead(found, call, name, bytes, variable.Identifier), leave));
    }

    private static string TryRead(Found found, InvocationExpressionSyntax call, string name, ArgumentSyntax bytes, SyntaxToken variable) =>
        Shortened.At($"{name}.TryRead({bytes}, out var {variable.Text})", found.Model, call.SpanStart);

    // The call, and each field's name where it is read; null where the generated one has no such count, or the struct is written to or goes elsewhere whole.
    private static List<TextChange>? Changes(Found found, SyntaxNode variable, INamedTypeSymbol generated, TextChange read)
    {
        var changes = new List<TextChange> { read };
        if (found.Model.GetDeclaredSymbol(variable, found.Cancel) is not { } local || variable.FirstAncestorOrSelf<MemberDeclarationSyntax>() is not { } member)
            return null;
        foreach (var name in (member.Parent is CompilationUnitSyntax && member is GlobalStatementSyntax ? member.Parent : member).DescendantNodes().OfType<IdentifierNameSyntax>())
        {
            if (name.Identifier.ValueText != local.Name || !SymbolEqualityComparer.Default.Equals(found.Model.GetSymbolInfo(name, found.Cancel).Symbol, local))
                continue;
            if (name.Parent is not MemberAccessExpressionSyntax { Name: IdentifierNameSyntax field } access || access.Expression != name || found.Model.GetTypeInfo(access, found.Cancel).Type is not { } type)
                return null;
            var known = new[] { field.Identifier.Text + "Raw", field.Identifier.Text }.FirstOrDefault(one => generated.GetMembers(one).FirstOrDefault() is IPropertySymbol property
                && SymbolEqualityComparer.Default.Equals(property.Type, type));
            if (known is null)
                return null;
            changes.Add(new(field.Span, known));
        }
        return changes;
    }
}
