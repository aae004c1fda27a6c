using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Firmware.Support;

/// <summary>Manifests of the tests and what is emitted from them.</summary>
public static class Emitted
{
    /// <summary>The repository's root, found from this file's own path at build time.</summary>
    public static string Root { get; } = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", ".."));

    public static string Apiary { get; } = Path.Combine(Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml");

    /// <summary>Both roles, every kind of field.</summary>
    public static string Bench { get; } = Manifest("bench.radio.yaml");

    /// <summary>Fixed lengths, other parts and boards.</summary>
    public static string Store { get; } = Manifest("store.radio.yaml");

    /// <summary>The files of all three, by name; the contract once.</summary>
    public static ImmutableSortedDictionary<string, string> Everything { get; } = new[] { Apiary, Bench, Store }
        .SelectMany(manifest => Files(manifest))
        .GroupBy(file => file.Name).ToImmutableSortedDictionary(files => files.Key, files => Assert.Single(files.Select(file => file.Text).Distinct()), StringComparer.Ordinal);

    /// <summary>Boards round every AVR part that the ready-made hooks know.</summary>
    public static string Avr { get; } = Manifest("avr.radio.yaml");

    /// <summary>Headers and programs of one manifest, by name.</summary>
    public static ImmutableSortedDictionary<string, string> WithPrograms(string path) =>
        Files(Network(path), new() { Programs = true }).ToImmutableSortedDictionary(file => file.Name, file => file.Text, StringComparer.Ordinal);

    /// <summary>A network without errors.</summary>
    public static Network Network(string path) => Network(Path.GetFileName(path), File.ReadAllText(path));

    public static Network Network(string name, string text)
    {
        var result = Linter.Check(new SourceText(name, text));
        Assert.Empty(result.Findings.Where(finding => finding.Severity is Severity.Error).Select(finding => $"{finding.Place}: {finding.Rule.Id} {finding.Message}"));
        return result.Network!;
    }

    public static ImmutableArray<EmittedFile> Files(string path) => Files(Network(path));

    public static ImmutableArray<EmittedFile> Files(Network network, EmitRequest? request = null)
    {
        var set = EmitSet.Of(network, request ?? new());
        Assert.Empty(set.Findings.Select(finding => $"{finding.Place}: {finding.Message}"));
        return set.Files;
    }

    public static string Manifest(string name) => Path.Combine(Root, "tests", "RadioLint.Firmware.Tests", "manifests", name);

    public static string Program(string name) => Path.Combine(Root, "tests", "RadioLint.Firmware.Tests", "programs", name);

    private static string Here([CallerFilePath] string path = "") => path;
}
