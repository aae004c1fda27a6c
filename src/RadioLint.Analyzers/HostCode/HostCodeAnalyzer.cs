using System.Collections.Concurrent;
using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Diagnostics;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Analyzers.Checking;
using RadioLint.Analyzers.Generation;
using RadioLint.Analyzers.HostCode.Rules;
using RadioLint.Findings;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode;

/// <summary>The rules on C# code. They look only at types whose code touches what was generated, or what is handed to every program.</summary>
[DiagnosticAnalyzer(LanguageNames.CSharp)]
public sealed class HostCodeAnalyzer : DiagnosticAnalyzer
{
    private static readonly ImmutableArray<HostRule> Rules = ImmutableArray.Create<HostRule>(
        new UnknownName(),
        new LiteralOfThePlan(),
        new SpiFrames(),
        new PayloadStruct(),
        new OtherByteOrder(),
        new BufferThatDoesNotFit(),
        new DecodedWithoutCheck(),
        new IgnoredResult(),
        new BlockingCallback(),
        new WaitAgainstTiming(),
        new DeviceNotDisposed(),
        new SpiSettings(),
        new OtherPinScheme(),
        new EndlessReceiving(),
        new CountAsValue());

    public override ImmutableArray<DiagnosticDescriptor> SupportedDiagnostics { get; } = ImmutableArray.CreateRange(
        HostRules.All.Where(rule => rule != HostRules.UnreadableManifest && rule != HostRules.FirmwareOfOtherPlan && rule != HostRules.UnfitProject).Select(Descriptors.Of));

    public override void Initialize(AnalysisContext context)
    {
        context.EnableConcurrentExecution();
        context.ConfigureGeneratedCodeAnalysis(GeneratedCodeAnalysisFlags.None);
        context.RegisterCompilationStartAction(Start);
    }

    private static void Start(CompilationStartAnalysisContext context)
    {
        if (!context.Options.AdditionalFiles.Any(file => ManifestFiles.IsManifest(file.Path)))
        {
            context.RegisterCompilationEndAction(static end => end.ReportDiagnostic(Diagnostic.Create(
                Descriptors.Of(HostRules.NoManifest), Location.None,
                "no manifest is among the files that the compiler is given; put a file `*.radio.yaml` below the project, or list it as an AdditionalFiles item")));
            return;
        }
        if (Host.Of(context.Compilation, context.Options, context.CancellationToken) is not { } host)
            return;
        context.RegisterSymbolAction(symbol => Declared(host, symbol), SymbolKind.Field, SymbolKind.Property, SymbolKind.Parameter, SymbolKind.NamedType);
        context.RegisterOperationAction(operation => Valued(host, operation), OperationKind.SimpleAssignment, OperationKind.Argument, OperationKind.FieldInitializer, OperationKind.PropertyInitializer);
        context.RegisterSymbolStartAction(start => Collect(host, start), SymbolKind.NamedType);
        // The compiler starts no type for top-level statements.
        context.RegisterOperationBlockAction(block =>
        {
            if (block.OwningSymbol is IMethodSymbol { ContainingType.IsImplicitlyDeclared: true } or IMethodSymbol { Name: WellKnownMemberNames.TopLevelStatementsEntryPointMethodName })
                Judge(host, block.OperationBlocks, block.ReportDiagnostic);
        });
    }

    private static void Collect(Host host, SymbolStartAnalysisContext context)
    {
        if (context.Symbol.IsImplicitlyDeclared)
            return;
        var blocks = new ConcurrentBag<IOperation>();
        context.RegisterOperationBlockAction(block =>
        {
            if (block.OwningSymbol.Name == WellKnownMemberNames.TopLevelStatementsEntryPointMethodName)
                return;
            foreach (var one in block.OperationBlocks)
                blocks.Add(one);
        });
        context.RegisterSymbolEndAction(end => Judge(host, blocks, end.ReportDiagnostic));
    }

    private static void Judge(Host host, IEnumerable<IOperation> blocks, Action<Diagnostic> report)
    {
        try
        {
            if (TypeCode.Of(host, blocks) is not { } code)
                return;
            // One cause, one finding: a place that contradicts the plan is not told anything further by the same rule.
            var told = new HashSet<(string, Location)>();
            foreach (var finding in Rules.SelectMany(rule => rule.Check(code)))
            {
                if (told.Add((finding.Rule.Id, finding.Place)))
                    Report(host, finding, report);
            }
        }
        // The compiler's door: a defect of ours is one diagnostic and never a broken build.
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            report(Remarks.OfDefect(host.Networks[0].Path, $"failed on C# code, a defect of RadioLint ({fault.GetType().Name}: {RadioLint.Text.OneLine.Of(fault.Message)}): report it"));
        }
    }

    private static void Declared(Host host, SymbolAnalysisContext context)
    {
        var symbol = context.Symbol;
        foreach (var finding in Bindings.OfDeclaration(host, symbol, context.CancellationToken))
            Report(host, finding, context.ReportDiagnostic);
        if (symbol is not INamedTypeSymbol type)
            return;
        if (type.TypeKind is TypeKind.Struct && Bindings.Of(host, type) is not null)
        {
            foreach (var finding in PayloadStruct.Judge(host, type, type.Locations[0]))
                Report(host, finding, context.ReportDiagnostic);
        }
        foreach (var finding in TypeOfGeneratedName.Check(host, type))
            Report(host, finding, context.ReportDiagnostic);
    }

    private static void Valued(Host host, OperationAnalysisContext context)
    {
        var (target, value) = context.Operation switch
        {
            // Of an attribute or an indexer nothing is bound.
            ISimpleAssignmentOperation { Target: IMemberReferenceOperation { Member: IFieldSymbol or IPropertySymbol } member } assignment => (member.Member, assignment.Value),
            IArgumentOperation { ArgumentKind: not ArgumentKind.DefaultValue, Parameter: { } parameter } argument => (parameter, argument.Value),
            IFieldInitializerOperation { InitializedFields: [{ HasConstantValue: false } field] } initializer => (field, initializer.Value),
            IPropertyInitializerOperation { InitializedProperties: [{ } property] } initializer => (property, initializer.Value),
            _ => ((ISymbol?)null, context.Operation),
        };
        if (target is null || !value.ConstantValue.HasValue)
            return;
        foreach (var finding in Bindings.OfValue(host, target.OriginalDefinition, value))
            Report(host, finding, context.ReportDiagnostic);
    }

    private static void Report(Host host, HostFinding finding, Action<Diagnostic> report)
    {
        if (host.SeverityOf(finding.Rule) is not Severity.Silent)
            report(finding.ToDiagnostic(host));
    }
}
