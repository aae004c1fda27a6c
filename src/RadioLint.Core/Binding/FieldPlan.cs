using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>The plan that nodes in the field still have: another manifest, which `change` names. Its own faults are its own check's business.</summary>
internal static class FieldPlan
{
    /// <param name="manifest">The manifest that plans the change.</param>
    /// <param name="from">The old one's path below the manifest's folder; null when none is named.</param>
    public static Network? Read(SourceText manifest, Stated<string>? from, Func<string, byte[]?> include, List<Finding> findings)
    {
        if (from is null)
            return null;
        if (IncludeFault.Escapes(from.Value))
        {
            findings.Add(IncludeFault.Outside(from.Place, from.Value));
            return null;
        }
        if (include(from.Value) is not { } bytes)
        {
            findings.Add(IncludeFault.Missing(from.Place, from.Value));
            return null;
        }
        var unsaid = new List<Finding>();
        var name = manifest.Name.Substring(0, manifest.Name.LastIndexOf('/') + 1) + from.Value;
        var network = FileText.Decode(name, bytes, unsaid) is { } source ? ManifestReader.ReadFieldPlan(source, include, unsaid) : null;
        if (network is null)
            findings.Add(IncludeFault.Unreadable(from.Place, from.Value));
        return network;
    }
}
