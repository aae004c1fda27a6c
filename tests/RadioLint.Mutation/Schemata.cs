using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.Mutation;

/// <summary>
/// Writes a file with all its mutants in it. Each mutant is a whole copy of its method with the one change, chosen on entry; so pattern
/// variables, target types and iterators mean in the copy what they mean in the source. Values of fields are chosen by an expression.
/// </summary>
internal sealed class Schemata(CoreSources core)
{
    private readonly StringBuilder written = new();
    private readonly List<(TextSpan Span, int Mutant)> copies = [];
    private int originals;
    private string source = "";
    private string file = "";

    /// <summary>From 1, so that 0 is none.</summary>
    public int Probes { get; private set; } = 1;

    /// <summary>The text, and which part of it is whose copy.</summary>
    public (string Text, List<(TextSpan Span, int Mutant)> Copies) Write(string path, IReadOnlyCollection<Mutant> mutants)
    {
        file = path;
        source = core.Trees[path].ToString();
        written.Clear();
        copies.Clear();
        var done = 0;
        var after = new List<(MemberDeclarationSyntax Member, List<Mutant> Mutants)>();
        foreach (var (code, ofCode) in mutants.GroupBy(CodeOf).OrderBy(group => group.Key.SpanStart).Select(group => (group.Key, group.ToList())))
        {
            written.Append(source, done, code.SpanStart - done);
            done = code.Span.End;
            if (code is BlockSyntax { Parent: ConstructorDeclarationSyntax } body)
                WriteBody(body, ofCode);
            else if (code is ExpressionSyntax value)
                WriteValue(value, ofCode);
            else
                done = WriteMethod(code, ofCode);
        }
        written.Append(source, done, source.Length - done);
        return (written.ToString(), [.. copies]);
    }

    // What is copied: a block, an arrow with its expression, or a value.
    private static SyntaxNode CodeOf(Mutant mutant)
    {
        var node = mutant.Member.SyntaxTree.GetRoot().FindNode(mutant.Span, getInnermostNodeForTie: true);
        return mutant.Member switch
        {
            BaseMethodDeclarationSyntax method => (SyntaxNode?)method.Body ?? method.ExpressionBody!,
            PropertyDeclarationSyntax { Initializer: { } initializer } when initializer.Span.Contains(mutant.Span) => initializer.Value,
            PropertyDeclarationSyntax { ExpressionBody: { } arrow } => arrow,
            IndexerDeclarationSyntax { ExpressionBody: { } arrow } => arrow,
            BasePropertyDeclarationSyntax => node.FirstAncestorOrSelf<AccessorDeclarationSyntax>() is { RawKind: (int)SyntaxKind.GetAccessorDeclaration } get
                ? (SyntaxNode?)get.Body ?? get.ExpressionBody! : throw new NotSupportedException($"{mutant} is in an accessor that is no getter"),
            FieldDeclarationSyntax => node.FirstAncestorOrSelf<VariableDeclaratorSyntax>()!.Initializer!.Value,
            TypeDeclarationSyntax => node.AncestorsAndSelf().OfType<ArgumentSyntax>().Last(argument => argument.Parent!.Parent is PrimaryConstructorBaseTypeSyntax).Expression,
            _ => throw new NotSupportedException($"{mutant} is in a member of a kind that has no form yet"),
        };
    }

    private void WriteBody(BlockSyntax body, List<Mutant> mutants)
    {
        written.Append("{ switch (").Append(Case(mutants)).Append(") { ");
        foreach (var mutant in mutants)
        {
            written.Append("case ").Append(mutant.Id).Append(": ");
            Copy(body, mutant);
            written.Append(" break; ");
        }
        written.Append("default: ").Append(source, body.SpanStart, body.Span.Length).Append(" break; } }");
    }

    private void WriteValue(ExpressionSyntax value, List<Mutant> mutants)
    {
        var type = value.Parent is ArgumentSyntax ? core.TypeAt(file, value)
            : (value.FirstAncestorOrSelf<VariableDeclarationSyntax>()?.Type ?? value.FirstAncestorOrSelf<PropertyDeclarationSyntax>()!.Type).ToString();
        written.Append('(').Append(Case(mutants)).Append(" switch { ");
        foreach (var mutant in mutants)
        {
            written.Append(mutant.Id).Append(" => (").Append(type).Append(")(");
            Copy(value, mutant);
            written.Append("), ");
        }
        written.Append("_ => (").Append(type).Append(")(").Append(source, value.SpanStart, value.Span.Length).Append(") })");
    }

    private int WriteMethod(SyntaxNode code, List<Mutant> mutants)
    {
        var member = mutants[0].Member;
        var method = member as MethodDeclarationSyntax;
        var (type, name, parameters) = member switch
        {
            MethodDeclarationSyntax { ParameterList.Parameters: var list } => (method!.ReturnType, method.Identifier.Text, list),
            IndexerDeclarationSyntax indexer => (indexer.Type, "Item", indexer.ParameterList.Parameters),
            PropertyDeclarationSyntax property => (property.Type, property.Identifier.Text, default),
            _ => throw new NotSupportedException($"{mutants[0]} is in a member of a kind that has no form yet"),
        };
        var generic = method?.TypeParameterList is { } list2 ? $"<{string.Join(", ", list2.Parameters.Select(parameter => parameter.Identifier.Text))}>" : "";
        var passed = string.Join(", ", parameters.Select(parameter =>
            string.Concat(parameter.Modifiers.Where(modifier => modifier.Kind() is SyntaxKind.RefKeyword or SyntaxKind.OutKeyword or SyntaxKind.InKeyword).Select(modifier => modifier.Text + " ")) + parameter.Identifier.Text));
        var head = "private " + string.Concat(member.Modifiers.Where(modifier => modifier.Kind() is SyntaxKind.StaticKeyword or SyntaxKind.ReadOnlyKeyword).Select(modifier => modifier.Text + " ")) + type + " ";
        var tail = $"{generic}({parameters}) {method?.ConstraintClauses}";
        var original = $"{name}__original{++originals}";
        // Before the original is written: that sets the finer probes.
        var entry = Case(mutants);
        var isVoid = type.ToString() == "void";
        var end = code is ArrowExpressionClauseSyntax ? ";" : "";

        var isGetter = member is BasePropertyDeclarationSyntax && code is ArrowExpressionClauseSyntax { Parent: not AccessorDeclarationSyntax };
        written.Append(isGetter ? "{ get { switch (" : "{ switch (").Append(entry).Append(") { ");
        foreach (var (label, target) in mutants.Select(mutant => ($"case {mutant.Id}", $"{name}__{mutant.Id}")).Append(("default", original)))
            written.Append(label).Append(": ").Append(isVoid ? "" : "return ").Append(target).Append(generic).Append('(').Append(passed).Append(isVoid ? "); break; " : "); ");
        written.Append(isGetter ? "} } }" : "} }");
        var done = code.Span.End + end.Length;
        if (code.Parent is AccessorDeclarationSyntax)
        {
            written.Append(source, done, member.Span.End - done);
            done = member.Span.End;
        }
        written.Append('\n').Append(head).Append(original).Append(tail).Append(' ').Append(Probed(code, mutants)).Append(end).Append('\n');
        foreach (var mutant in mutants)
        {
            written.Append(head).Append(name).Append("__").Append(mutant.Id).Append(tail).Append(' ');
            Copy(code, mutant);
            written.Append(end).Append('\n');
        }
        return done;
    }

    private string Case(List<Mutant> mutants)
    {
        foreach (var mutant in mutants)
            mutant.Probe = Probes;
        return $"{MutantSwitch.Name}.Case({Probes++})";
    }

    private void Copy(SyntaxNode code, Mutant mutant)
    {
        var start = written.Length;
        written.Append(source, code.SpanStart, mutant.Span.Start - code.SpanStart).Append(mutant.Text).Append(source, mutant.Span.End, code.Span.End - mutant.Span.End);
        copies.Add((TextSpan.FromBounds(start, written.Length), mutant.Id));
    }

    // The source with a probe before every statement that holds a mutant, so that a test counts only where it gets so far.
    private string Probed(SyntaxNode code, List<Mutant> mutants)
    {
        var inserts = new List<(int At, string Text)>();
        foreach (var group in mutants.GroupBy(mutant => StatementOf(code, mutant)))
        {
            if (group.Key is not { } statement)
                continue;
            foreach (var mutant in group)
                mutant.Probe = Probes;
            var hit = $"{MutantSwitch.Name}.Hit({Probes++}); ";
            var isListed = statement.Parent is BlockSyntax or SwitchSectionSyntax;
            inserts.Add((statement.SpanStart, isListed ? hit : "{ " + hit));
            if (!isListed)
                inserts.Add((statement.Span.End, " }"));
        }
        var text = new StringBuilder(code.ToString());
        foreach (var (at, insert) in inserts.OrderByDescending(insert => insert.At))
            text.Insert(at - code.SpanStart, insert);
        return text.ToString();
    }

    private static StatementSyntax? StatementOf(SyntaxNode code, Mutant mutant)
    {
        var statement = code.FindNode(mutant.Span, getInnermostNodeForTie: true).AncestorsAndSelf().TakeWhile(node => node != code)
            .OfType<StatementSyntax>().FirstOrDefault(each => each is not BlockSyntax);
        // Nobody passes by a local function's declaration.
        return statement is LocalFunctionStatementSyntax ? null : statement;
    }
}
