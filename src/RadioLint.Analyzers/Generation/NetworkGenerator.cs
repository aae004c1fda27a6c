using System.Collections.Immutable;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.Analyzers.Generation;

/// <summary>
/// From each manifest among the additional files to typed C#. Steps hold strings and flags only, and each compares by value: an edit of C#
/// recomputes nothing.
/// </summary>
[Generator(LanguageNames.CSharp)]
public sealed class NetworkGenerator : IIncrementalGenerator
{
    public const string ManifestsStep = "Manifests";
    public const string OtherFilesStep = "OtherFiles";
    public const string SettingsStep = "Settings";
    public const string PlatformStep = "Platform";
    public const string NetworksStep = "Networks";
    public const string ClassesStep = "Classes";
    public const string SupportStep = "Support";

    /// <summary>Every step of ours.</summary>
    public static readonly ImmutableArray<string> Steps =
        ImmutableArray.Create(ManifestsStep, OtherFilesStep, SettingsStep, PlatformStep, NetworksStep, ClassesStep, SupportStep);

    public void Initialize(IncrementalGeneratorInitializationContext context)
    {
        var manifests = context.AdditionalTextsProvider.Where(static file => ManifestFiles.IsManifest(file.Path)).Select(Read).WithTrackingName(ManifestsStep);
        // A manifest may include any of them; which one is known only when it is read.
        var others = context.AdditionalTextsProvider.Where(static file => ManifestFiles.MayBeIncluded(file.Path)).Select(Read).Collect()
            .Select(static (files, _) => new EquatableArray<InputFile>(files)).WithTrackingName(OtherFilesStep);
        var settings = context.AnalyzerConfigOptionsProvider
            .Combine(context.CompilationProvider.Select(static (compilation, _) => compilation.AssemblyName ?? ""))
            .Select(static (pair, _) => ProjectSettings.Of(pair.Left.GlobalOptions, pair.Right)).WithTrackingName(SettingsStep);
        var platform = context.ParseOptionsProvider.Combine(context.CompilationProvider.Select(static (compilation, _) => Types(compilation)))
            .Select(static (pair, _) => PlatformOf(pair.Left, pair.Right)).WithTrackingName(PlatformStep);
        var networks = manifests.Combine(others).Combine(settings)
            .Select(static (input, _) => NetworkReader.Read(input.Left.Left, input.Left.Right, input.Right)).WithTrackingName(NetworksStep);
        // Which manifest each class comes from: the first by path where two networks have one name.
        var classes = networks.Select(static (network, _) => new InputFile(network.Path, network.ClassName ?? "")).Collect()
            .Select(static (names, _) => new EquatableArray<InputFile>(names.OrderBy(name => name.Path, StringComparer.Ordinal))).WithTrackingName(ClassesStep);
        context.RegisterSourceOutput(networks.Combine(classes).Combine(platform), static (output, input) =>
            Write(output, input.Left.Left, input.Left.Right, input.Right));

        var support = settings.Combine(platform).Combine(classes)
            .Select(static (input, _) => input.Left.Right.Lack is null && input.Right.Any()
                ? new EquatableArray<GeneratedFile>(SupportFiles.Of(input.Left.Left.Access, input.Left.Right.HasSpi))
                : default)
            .WithTrackingName(SupportStep);
        context.RegisterSourceOutput(support, static (output, files) => Write(output, files));
    }

    private static InputFile Read(AdditionalText file, CancellationToken cancel) =>
        new(ManifestFiles.PathOf(file), file.GetText(cancel)?.ToString() ?? "");

    private static (bool HasSpans, bool HasSpi) Types(Compilation compilation) => (
        compilation.GetTypeByMetadataName("System.ReadOnlySpan`1") is not null,
        compilation.GetTypeByMetadataName("System.Device.Spi.SpiDevice") is not null);

    private static Platform PlatformOf(ParseOptions options, (bool HasSpans, bool HasSpi) types)
    {
        var version = (options as CSharpParseOptions)?.LanguageVersion ?? LanguageVersion.Default;
        return new(version >= LanguageVersion.CSharp10, version.ToDisplayString(), types.HasSpans, types.HasSpi);
    }

    private static void Write(SourceProductionContext output, GeneratedNetwork network, EquatableArray<InputFile> classes, Platform platform)
    {
        if (platform.Lack is { } lack)
        {
            output.ReportDiagnostic(Remarks.OfPlatform(network.Path, lack));
            return;
        }
        if (network.Failure is { } failure)
            output.ReportDiagnostic(Remarks.OfFailure(network.Path, failure));
        if (network.ClassName is not { } name)
            return;
        var first = classes.First(one => string.Equals(one.Text, name, StringComparison.OrdinalIgnoreCase)).Path;
        if (first != network.Path)
        {
            Report(output, Remarks.OfClash(network.Path, $"nothing is generated from this manifest: its class {name} comes from {first}; rename one of the two networks", network.OnClash));
            return;
        }
        foreach (var clash in network.Clashes)
            Report(output, Remarks.OfClash(network.Path, clash.Message, network.OnClash));
        Write(output, network.Files);
    }

    private static void Report(SourceProductionContext output, Diagnostic? remark)
    {
        if (remark is not null)
            output.ReportDiagnostic(remark);
    }

    private static void Write(SourceProductionContext output, EquatableArray<GeneratedFile> files)
    {
        foreach (var file in files)
            output.AddSource(file.Name, SourceText.From(file.Text, Encoding.UTF8));
    }
}
