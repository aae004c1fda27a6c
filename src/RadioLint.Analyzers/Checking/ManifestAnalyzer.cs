using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Diagnostics;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Analyzers.Generation;
using RadioLint.Findings;
using RadioLint.Rules.HostCode;
using RadioLint.Text;

namespace RadioLint.Analyzers.Checking;

/// <summary>Every finding of Core on the manifests among the additional files, at the manifest's own place.</summary>
[DiagnosticAnalyzer(LanguageNames.CSharp)]
public sealed class ManifestAnalyzer : DiagnosticAnalyzer
{
    public override ImmutableArray<DiagnosticDescriptor> SupportedDiagnostics { get; } = ImmutableArray.CreateRange(Descriptors.OfManifests.Concat(
        new[] { HostRules.UnreadableManifest, HostRules.FirmwareOfOtherPlan, HostRules.Defect }.Select(Descriptors.Of)));

    public override void Initialize(AnalysisContext context)
    {
        context.EnableConcurrentExecution();
        context.ConfigureGeneratedCodeAnalysis(GeneratedCodeAnalysisFlags.None);
        context.RegisterAdditionalFileAction(static context =>
        {
            var files = context.Options.AdditionalFiles;
            if (ManifestFiles.IsManifest(context.AdditionalFile.Path))
                Report(context, CheckedManifest.Of(context.AdditionalFile, files, context.CancellationToken));
            else if (ManifestFiles.IsRecord(context.AdditionalFile.Path))
                IssuedRecord.Compare(context, files);
        });
    }

    private static void Report(AdditionalFileAnalysisContext context, CheckedManifest? manifest)
    {
        if (manifest is null)
            return;
        if (manifest.Failure is { } failure)
            context.ReportDiagnostic(Remarks.OfDefect(manifest.Path, $"failed on this manifest and checked nothing in it, a defect of RadioLint ({failure}): report it with the manifest"));
        if (manifest.Result is not { } result)
            return;
        if (result.Network is null && result.Findings.FirstOrDefault() is { } first)
        {
            context.ReportDiagnostic(Diagnostic.Create(
                Descriptors.Of(HostRules.UnreadableManifest), LocationOf(first.Place), $"the manifest cannot be read: {first.Message} ({first.Rule.Id}); {first.Help}"));
            return;
        }
        foreach (var finding in result.Findings)
            context.ReportDiagnostic(From(finding));
    }

    private static Diagnostic From(Finding finding) => Diagnostic.Create(
        Descriptors.Of(finding.Rule), LocationOf(finding.Place), Descriptors.InCompiler(finding.Severity),
        finding.Related.Select(related => LocationOf(related.Place)), ManifestFixNotes.Write(finding.Fixes),
        $"{finding.Message}; {finding.Help}");

    internal static Location LocationOf(Place place)
    {
        var (from, to) = (place.From, place.To);
        return Location.Create(
            place.Source.Name, new TextSpan(place.Start, place.Length),
            new LinePositionSpan(new(from.Line - 1, from.Column - 1), new(to.Line - 1, to.Column - 1)));
    }
}
