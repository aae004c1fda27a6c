using System.Runtime.Loader;
using RadioLint.Tests.Analyzers.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>The package `RadioLint.Core` as a program for .NET 10 and a library for netstandard2.0 see it.</summary>
public sealed class CorePackageTests(Packed packed)
{
    // Channel 84 at 1 Mbps reaches above 2483.5 MHz, the end of the band in the built-in table of GB.
    private const string Code = """
        using System.Linq;
        using RadioLint;
        using RadioLint.Text;

        namespace Larkfield
        {
            public static class Desk
            {
                public static string Findings(string manifest) => string.Join(
                    ", ", Linter.Check(new SourceText("field.radio.yaml", manifest)).Findings.Where(one => one.Severity == RadioLint.Findings.Severity.Error).Select(one => one.Rule.Id + " at " + one.Place));
            }
        }
        """;

    private static readonly string Example = File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml"));
    private static readonly string Wrong = Example.Replace("channel: 74", "channel: 84", StringComparison.Ordinal);

    [Fact]
    public async Task A_program_for_net10_checks_and_emits()
    {
        using var consumer = new Consumer(await packed.Core());
        consumer.Write("desk/Desk.cs", Code);
        consumer.Write("desk/first-pair.radio.yaml", Wrong);
        // What the package's readme shows, and headers, which only net10.0 has.
        consumer.Write("desk/Program.cs", """
            using System;
            using System.IO;
            using System.Linq;

            var result = RadioLint.Linter.Check(new RadioLint.Text.SourceText("first-pair.radio.yaml", File.ReadAllText(args[0])));
            foreach (var finding in result.Findings)
                Console.WriteLine($"{finding.Place}: {finding.Severity} {finding.Rule.Id}: {finding.Message}");
            Console.WriteLine(Larkfield.Desk.Findings(File.ReadAllText(args[0])));
            Console.WriteLine(string.Join(' ', RadioLint.Emit.EmitSet.Of(result.Network!, new()).Files.Select(file => file.Name)));
            """);
        consumer.Write("desk/desk.csproj", Project("net10.0", "<OutputType>Exe</OutputType>"));
        await consumer.MustBuild("desk", "radiolint.core");
        var printed = await consumer.MustRun("dotnet", consumer.At("desk/bin/Debug/net10.0/desk.dll"), consumer.At("desk/first-pair.radio.yaml"));
        // The same library as these tests have.
        var findings = Linter.Check(new SourceText("first-pair.radio.yaml", Wrong)).Findings.Select(one => $"{one.Place}: {one.Severity} {one.Rule.Id}: {one.Message}").ToList();
        Assert.Contains(findings, line => line.StartsWith("first-pair.radio.yaml:4:17: Error RL3002: ", StringComparison.Ordinal));
        Assert.Equal(
            [.. findings, "RL3002 at field.radio.yaml:4:17", "radio_contract.h radio_link.h cellar_radio.h hall_radio.h"],
            printed.Trim().Split('\n'));
    }

    [Fact]
    public async Task A_library_for_netstandard2_checks()
    {
        using var consumer = new Consumer(await packed.Core());
        consumer.Write("desk/Desk.cs", Code);
        consumer.Write("desk/desk.csproj", Project("netstandard2.0", "<CopyLocalLockFileAssemblies>true</CopyLocalLockFileAssemblies>"));
        await consumer.MustBuild("desk", "radiolint.core");

        // Run with the assembly that the package has for netstandard2.0, not with the one of these tests.
        var folder = consumer.At("desk/bin/Debug/netstandard2.0");
        var context = new AssemblyLoadContext("desk", isCollectible: true);
        context.Resolving += (_, name) => Path.Combine(folder, name.Name + ".dll") is var file && File.Exists(file) ? context.LoadFromAssemblyPath(file) : null;
        var core = context.LoadFromAssemblyPath(Path.Combine(folder, "RadioLint.Core.dll"));
        Assert.Null(core.GetType("RadioLint.Emit.EmitSet"));
        var findings = context.LoadFromAssemblyPath(Path.Combine(folder, "desk.dll")).GetType("Larkfield.Desk", throwOnError: true)!.GetMethod("Findings")!;
        Assert.Equal("", findings.Invoke(null, [Example]));
        Assert.Equal("RL3002 at field.radio.yaml:4:17", findings.Invoke(null, [Wrong]));
        context.Unload();
    }

    private static string Project(string framework, string properties) => $"""
        <Project Sdk="Microsoft.NET.Sdk">
          <PropertyGroup>
            <TargetFramework>{framework}</TargetFramework>
            <Nullable>enable</Nullable>
            <LangVersion>latest</LangVersion>
            {properties}
          </PropertyGroup>
          <ItemGroup>
            <PackageReference Include="RadioLint.Core" Version="*" />
          </ItemGroup>
        </Project>
        """;
}
