using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.Checking;

/// <summary>The catalogue in the compiler's terms.</summary>
internal static class Descriptors
{
    private const string Category = "RadioLint";

    private static readonly ImmutableDictionary<string, DiagnosticDescriptor> ById =
        Catalogue.OfManifests.Concat(HostRules.All).ToImmutableDictionary(rule => rule.Id, Make, StringComparer.Ordinal);

    /// <summary>Rules on manifests, in the order of their IDs.</summary>
    public static ImmutableArray<DiagnosticDescriptor> OfManifests { get; } = ImmutableArray.CreateRange(Catalogue.OfManifests.Select(Of));

    public static DiagnosticDescriptor Of(Descriptor rule) => ById[rule.Id];

    /// <summary>The compiler's word for a severity; one that is silent is not reported at all.</summary>
    public static DiagnosticSeverity InCompiler(Severity severity) => severity switch
    {
        Severity.Error => DiagnosticSeverity.Error,
        Severity.Warning => DiagnosticSeverity.Warning,
        _ => DiagnosticSeverity.Info,
    };

    private static DiagnosticDescriptor Make(Descriptor rule) => new(
        rule.Id, rule.Title, "{0}", Category, InCompiler(rule.Severity), isEnabledByDefault: true, rule.Limit, helpLinkUri: null,
        // Reported as it is: a defect of ours stays a warning where warnings are errors, and no build breaks by it.
        rule == HostRules.Defect ? [WellKnownDiagnosticTags.NotConfigurable] : []);
}
