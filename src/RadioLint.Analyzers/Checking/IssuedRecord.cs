using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Diagnostics;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Analyzers.Generation;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Rules.HostCode;
using SourceText = RadioLint.Text.SourceText;

namespace RadioLint.Analyzers.Checking;

/// <summary>RL9023: the record of what was last emitted names other digests than the manifest now has.</summary>
internal static class IssuedRecord
{
    public static void Compare(AdditionalFileAnalysisContext context, IEnumerable<AdditionalText> files)
    {
        var path = ManifestFiles.PathOf(context.AdditionalFile);
        var all = context.Options.AdditionalFiles;
        var manifest = files.FirstOrDefault(file => ManifestFiles.IsManifest(file.Path) && ManifestFiles.Belongs(path, ManifestFiles.PathOf(file)));
        if (manifest is null
            || CheckedManifest.Of(manifest, all, context.CancellationToken)?.Result?.Network is not { } network
            || context.AdditionalFile.GetText(context.CancellationToken) is not { } text)
        {
            return;
        }
        var unread = new List<Finding>();
        // What `emit` cannot read either, it says itself.
        if (TreeReader.Read(new SourceText(path, text.ToString()), unread) is not LocatedMap root || Map(Map(root, "now"), "nodes") is not { } nodes)
            return;
        foreach (var node in network.Nodes)
        {
            if (Map(nodes, node.Name) is { } issued && Value(issued, "digest") is LocatedScalar digest && DigestOf(network, node) is { } planned && planned != digest.Text)
            {
                context.ReportDiagnostic(Diagnostic.Create(
                    Descriptors.Of(HostRules.FirmwareOfOtherPlan), ManifestAnalyzer.LocationOf(digest.Place),
                    $"the firmware of `{node.Name}` was emitted from another plan: its digest is {digest.Text}, the manifest's is {planned}; emit and flash it again"));
            }
        }
    }

    private static string? DigestOf(Network network, Node node) =>
        !node.IsExternal && NodeFacts.Of(network, network.Plan.Of(node)) is { } facts ? Fingerprint.OfNode(facts).ToDigest() : null;

    private static LocatedMap? Map(LocatedMap? map, string key) => map is null ? null : Value(map, key) as LocatedMap;

    private static LocatedValue? Value(LocatedMap map, string key) => map.Find(key)?.Value;
}
