using System.Text;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.HostCode;
using RadioLint.Text;

namespace RadioLint.Analyzers.Generation;

/// <summary>From a manifest's text to the C# that comes of it. What the manifest states wrongly is the analyzer's to say.</summary>
internal static class NetworkReader
{
    public static GeneratedNetwork Read(InputFile manifest, EquatableArray<InputFile> others, ProjectSettings settings)
    {
        try
        {
            var network = Linter.Read(new SourceText(manifest.Path, manifest.Text), below => Included(manifest.Path, below, others));
            return network is null ? new(manifest.Path, null, default, default, null, null) : Write(network, manifest.Path, settings);
        }
        // The one place: a defect of ours must not take the user's build down.
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            return new(manifest.Path, null, default, default, null, $"{fault.GetType().Name}: {OneLine.Of(fault.Message)}");
        }
    }

    private static GeneratedNetwork Write(Network network, string path, ProjectSettings settings)
    {
        var clashes = new List<Remark>();
        var names = new HostNames(network, clashes);
        var files = new List<GeneratedFile>();
        void Add(string part, Action<CodeWriter> write)
        {
            var code = CodeWriter.OfFile(path.Substring(path.LastIndexOf('/') + 1), settings.Namespace);
            code.Line($"/// <summary>The network <c>{CSharp.Doc(network.Name?.Value ?? "")}</c> as planned.</summary>");
            using (code.Block($"{settings.Access} static partial class {names.Class}"))
                write(code);
            files.Add(new($"{names.Class}{part}.g.cs", code.ToString()));
        }

        Add("", code =>
        {
            code.Constant("string", "Name", CSharp.Quoted(network.Name?.Value ?? ""), "The network's name in the manifest.");
            AirWriter.Write(code, network);
        });
        Add(".Nodes", code => NodeWriter.Write(code, network, names));
        Add(".Links", code => LinkWriter.Write(code, network, names, $"global::{settings.Namespace}.{names.Class}"));
        foreach (var payload in names.Payloads)
            Add($".{payload.Name}", code => PayloadWriter.Write(code, payload, clashes));
        return new(path, names.Class, new(files), new(clashes), SeverityOf(network, HostRules.NameClash), null);
    }

    private static Severity? SeverityOf(Network network, Descriptor rule) =>
        network.Rules.Severities.FirstOrDefault(setting => setting.Rule.Text == rule.Id)?.Severity.Value;

    private static byte[]? Included(string manifest, string below, EquatableArray<InputFile> others)
    {
        var path = manifest.Substring(0, manifest.LastIndexOf('/') + 1) + below;
        var found = others.FirstOrDefault(file => string.Equals(file.Path, path, StringComparison.Ordinal));
        return found is null ? null : Encoding.UTF8.GetBytes(found.Text);
    }
}
