using RadioLint.Cli.Files;
using RadioLint.Findings;
using RadioLint.Manifest;

namespace RadioLint.Cli.Output;

/// <summary>A manifest with every default filled in.</summary>
internal static class EffectiveText
{
    /// <summary>Writes it when there is a network to speak of; else the findings say why not.</summary>
    public static void Write(TextWriter output, ManifestFile file, byte[] bytes, CheckResult result)
    {
        // What cannot be read of an included file is among the check's own findings already.
        var options = new CheckOptions { Include = new IncludeReader(file, [], [], []).Read };
        if (result.Network is not null && FileText.Decode(file.Name, bytes, new List<Finding>()) is { } source)
            output.Write(EffectiveManifest.Of(source, options));
    }
}
