using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Diagnostics;
using RadioLint.Analyzers.Checking;
using RadioLint.Analyzers.Generation;
using RadioLint.Findings;

namespace RadioLint.Analyzers.HostCode;

/// <summary>What a program is held against: the planned networks, and the types that radios are spoken to with.</summary>
internal sealed class Host
{
    private static readonly string[] SupportTypes =
        ["ReportReader", "ReportLine", "ReportBytes", "ReceivedReport", "BootReport", "SentReport", "RegisterReport", "SweepReport", "RegisterImage", "RadioOverSpi"];

    private readonly HashSet<ISymbol> support = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<string, Severity> severities = new(StringComparer.Ordinal);

    private Host(Compilation compilation, ImmutableArray<PlannedNetwork> networks)
    {
        (Compilation, Networks) = (compilation, networks);
        foreach (var name in SupportTypes)
        {
            if (Type("RadioLint." + name) is { } type)
                support.Add(type);
        }
        PlannedAttribute = Type("RadioLint.PlannedAttribute");
        SpiDevice = Type("System.Device.Spi.SpiDevice");
        SpiSettings = Type("System.Device.Spi.SpiConnectionSettings");
        PinController = Type("System.Device.Gpio.GpioController");
        SerialPort = Type("System.IO.Ports.SerialPort");
        // One program, one say: where several manifests differ, the first by path that sets a rule.
        foreach (var setting in networks.SelectMany(network => network.Network.Rules.Severities))
        {
            if (!severities.ContainsKey(setting.Rule.Text))
                severities.Add(setting.Rule.Text, setting.Severity.Value);
        }
    }

    public Compilation Compilation { get; }

    public ImmutableArray<PlannedNetwork> Networks { get; }

    public INamedTypeSymbol? PlannedAttribute { get; }

    public INamedTypeSymbol? SpiDevice { get; }

    public INamedTypeSymbol? SpiSettings { get; }

    public INamedTypeSymbol? PinController { get; }

    public INamedTypeSymbol? SerialPort { get; }

    /// <summary>What code is held against; null when nothing was generated from any manifest.</summary>
    public static Host? Of(Compilation compilation, AnalyzerOptions options, CancellationToken cancel)
    {
        var settings = ProjectSettings.Of(options.AnalyzerConfigOptionsProvider.GlobalOptions, compilation.AssemblyName ?? "");
        var networks = ImmutableArray.CreateBuilder<PlannedNetwork>();
        foreach (var file in options.AdditionalFiles.Where(file => ManifestFiles.IsManifest(file.Path)).OrderBy(ManifestFiles.PathOf, StringComparer.Ordinal))
        {
            if (CheckedManifest.Of(file, options.AdditionalFiles, cancel) is not { Result.Network: { } network, Names: { } names })
                continue;
            // A second network of the same name has no class of its own.
            if (compilation.Assembly.GetTypeByMetadataName($"{settings.Namespace}.{names.Class}") is { } type && networks.All(one => !SymbolEqualityComparer.Default.Equals(one.Class, type)))
                networks.Add(new(ManifestFiles.PathOf(file), network, names, type));
        }
        return networks.Count == 0 ? null : new(compilation, networks.ToImmutable());
    }

    /// <summary>The severity that the manifest gives a rule; null when it says nothing.</summary>
    public Severity? SeverityOf(Descriptor rule) => severities.TryGetValue(rule.Id, out var severity) ? severity : null;

    /// <summary>Whether a type is RadioLint's own, handed to every program.</summary>
    public bool IsSupport(ITypeSymbol? type) => type is not null && support.Contains(type.OriginalDefinition);

    /// <summary>Whether a symbol was generated from a manifest.</summary>
    public bool IsGenerated(ISymbol? symbol)
    {
        for (var type = symbol as INamedTypeSymbol ?? symbol?.ContainingType; type is not null; type = type.ContainingType)
        {
            foreach (var network in Networks)
            {
                if (SymbolEqualityComparer.Default.Equals(network.Class, type))
                    return true;
            }
        }
        return false;
    }

    /// <summary>The network and payload of a generated struct.</summary>
    public (PlannedNetwork Network, HostPayload Payload)? PayloadOf(ITypeSymbol? type)
    {
        if (type is null)
            return null;
        foreach (var network in Networks)
        {
            if (network.PayloadOf(type) is { } payload)
                return (network, payload);
        }
        return null;
    }

    /// <summary>Constants of the plan by class and name: `Links`, `Pipe`.</summary>
    public IEnumerable<IFieldSymbol> Constants(Func<PlannedNetwork, IEnumerable<INamedTypeSymbol>> types, string name) =>
        Networks.SelectMany(types).SelectMany(type => type.GetMembers(name)).OfType<IFieldSymbol>().Where(field => field.HasConstantValue);

    /// <summary>Whether a type is the given one or derives from it.</summary>
    public static bool Is(ITypeSymbol? type, INamedTypeSymbol? wanted)
    {
        for (; wanted is not null && type is not null; type = type.BaseType)
        {
            if (SymbolEqualityComparer.Default.Equals(type, wanted))
                return true;
        }
        return false;
    }

    /// <summary>How a message calls a member: from the network's class down.</summary>
    public static string Call(ISymbol member)
    {
        var name = member.Name;
        for (var type = member.ContainingType; type is not null; type = type.ContainingType)
            name = $"{type.Name}.{name}";
        return name;
    }

    /// <summary>How code calls a member from wherever it stands; the code fix shortens it.</summary>
    public static string Code(ISymbol member)
    {
        var space = (member as INamespaceSymbol ?? member.ContainingNamespace)?.ToDisplayString();
        return $"global::{(string.IsNullOrEmpty(space) || space == "<global namespace>" ? "" : space + ".")}{Call(member)}";
    }

    /// <summary>Code as people read it: generated names from the network's class down, others from their type.</summary>
    public string Shorten(string code)
    {
        foreach (var network in Networks)
            code = code.Replace(Code(network.Class) + ".", network.Class.Name + ".");
        return RadioLint.Text.OneLine.Of(OtherName.Replace(code, "$1"));
    }

    private static readonly Regex OtherName = new(@"global::(?:\w+\.)*?(\w+\.\w+)(?![\w.])", RegexOptions.CultureInvariant);

    private INamedTypeSymbol? Type(string name) => Compilation.GetTypeByMetadataName(name);
}
