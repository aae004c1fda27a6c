using System.Runtime.CompilerServices;
using Proof;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Tests.Proof.Host;
using RadioLint.Text;

namespace RadioLint.Tests.Proof;

/// <summary>A manifest with what RadioLint emits from it and what the second encoder expects.</summary>
public sealed class JudgedNetwork(string manifest, ImmutableFiles files, Dictionary<string, Expected> expected, string mark = "")
{
    public string Manifest => manifest;
    public IReadOnlyDictionary<string, Expected> Expected => expected;
    public IEnumerable<(string Name, string Text)> Shared => files.Shared;

    /// <summary>By the node's name.</summary>
    public SortedDictionary<string, EmittedNode> Nodes { get; } = new(
        expected.Keys.Where(name => files.Headers.ContainsKey(name)).ToDictionary(name => name, name => new EmittedNode(name.Replace('-', '_'), files.Headers[name], mark)), StringComparer.Ordinal);
}

/// <summary>Emitted text by node.</summary>
public sealed record ImmutableFiles(IReadOnlyList<(string Name, string Text)> Shared, IReadOnlyDictionary<string, string> Headers);

public static class Networks
{
    public static string Root { get; } = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", ".."));

    /// <summary>Every manifest of the documentation and of the firmware tests that headers can be emitted from.</summary>
    public static IEnumerable<string> Examples { get; } = Directory.EnumerateFiles(Path.Combine(Root, "docs", "examples"), "*.radio.yaml", SearchOption.AllDirectories)
        .Concat(Directory.EnumerateFiles(Path.Combine(Root, "tests", "RadioLint.Firmware.Tests", "manifests"), "*.radio.yaml")).Order(StringComparer.Ordinal)
        .Where(path => Emit(File.ReadAllText(path)) is not null);

    /// <summary>Null when the manifest has errors, or something that cannot be written in C.</summary>
    public static ImmutableFiles? Emit(string manifest)
    {
        var result = Linter.Check(new SourceText("proof.radio.yaml", manifest));
        if (result.Network is not { } network || result.Findings.Any(finding => finding.Severity is Severity.Error))
            return null;
        var set = EmitSet.Of(network, new());
        var headers = network.Nodes.Select(node => (node.Name, File: set.Files.FirstOrDefault(file => file.Name == node.Name.Replace('-', '_') + "_radio.h")))
            .Where(one => one.File is not null).ToDictionary(one => one.Name, one => one.File!.Text, StringComparer.Ordinal);
        var shared = set.Files.Where(file => file.Name is "radio_contract.h" or "radio_link.h").Select(file => (file.Name, file.Text)).ToList();
        return set.Findings.Length > 0 ? null : new(shared, headers);
    }

    public static JudgedNetwork Judge(string manifest) => new(manifest, Emit(manifest)!, Plan.Read(manifest));

    private static string Here([CallerFilePath] string path = "") => path;
}
