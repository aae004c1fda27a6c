using System.IO.Compression;
using System.Xml.Linq;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>The package `RadioLint` as a stranger's project sees it: restored from a folder into an empty cache, built by the SDK at its strictest.</summary>
public sealed class HostPackageTests(Packed packed)
{
    private static readonly string[] Strict =
    [
        "-p:AnalysisLevel=latest-all", "-p:TreatWarningsAsErrors=true", "-p:EnforceCodeStyleInBuild=true", "-p:GenerateDocumentationFile=true", "-p:CheckForOverflowUnderflow=true",
    ];

    [Fact]
    public async Task A_new_project_builds_and_runs_with_it()
    {
        using var consumer = new Consumer(await packed.Host());
        consumer.Write("host/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath));
        consumer.Write("host/host.csproj", """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <OutputType>Exe</OutputType>
                <TargetFramework>net10.0</TargetFramework>
                <Nullable>enable</Nullable>
                <RootNamespace>Larkfield.Host</RootNamespace>
              </PropertyGroup>
              <ItemGroup>
                <PackageReference Include="RadioLint" Version="*" />
              </ItemGroup>
            </Project>
            """);
        consumer.Write("host/Program.cs", """
            using System;
            using Larkfield.Host;

            var bytes = new byte[LarkfieldApiary.Payloads.Reading.Size];
            LarkfieldApiary.Payloads.Reading.FromValues(weight: 41250, temperature: 34.8, battery: 2950, sequence: 7).Write(bytes);
            Console.WriteLine($"{LarkfieldApiary.Air.Channel} {Convert.ToHexString(bytes)}");
            """);
        await consumer.MustBuild("host", "radiolint", Strict);
        // 41250 is A122, 3480 is 0D98, 2950 is 0B86; little-endian.
        Assert.Equal("74 22A10000980D860B07", (await consumer.MustRun("dotnet", consumer.At("host/bin/Debug/net10.0/host.dll"))).Trim());
    }

    // In the compiler that the SDK brings: findings of a manifest at its lines, and who has the last word on their weight.
    [Fact]
    public async Task Findings_stand_at_the_manifests_lines_and_obey_a_globalconfig()
    {
        using var consumer = new Consumer(await packed.Host());
        consumer.Write("host/mistakes.radio.yaml", File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "larkfield-mistakes", "larkfield-mistakes.radio.yaml")));
        // Without a C# file the SDK looks for no .globalconfig.
        consumer.Write("host/Empty.cs", "class Empty;\n");
        consumer.Write("host/.globalconfig", "is_global = true\ndotnet_diagnostic.RL2101.severity = error\ndotnet_diagnostic.RL1202.severity = none\n");
        consumer.Write("host/host.csproj", """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <TargetFramework>net10.0</TargetFramework>
                <NoWarn>$(NoWarn);RL3101</NoWarn>
              </PropertyGroup>
              <ItemGroup>
                <PackageReference Include="RadioLint" Version="*" />
              </ItemGroup>
            </Project>
            """);
        var (status, output) = await consumer.Build("host", "radiolint");
        Assert.NotEqual(0, status);
        string Printed(string place, string rest) => $"{consumer.At("host/mistakes.radio.yaml")}({place}): {rest}";
        Assert.Contains(Printed("6,12", "error RL3002: channel 90 at 1 Mbps reaches 7.15 MHz above the band of GB"), output, StringComparison.Ordinal);
        Assert.Contains(Printed("26,21", "error RL2101: "), output, StringComparison.Ordinal);
        Assert.DoesNotContain("RL1202", output, StringComparison.Ordinal);
        Assert.DoesNotContain("RL3101", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_library_for_netstandard2_and_C_sharp_10_builds_and_shows_its_types()
    {
        using var consumer = new Consumer(await packed.Host());
        consumer.Write("library/deep/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath));
        consumer.Write("library/library.csproj", """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <TargetFramework>netstandard2.0</TargetFramework>
                <LangVersion>10</LangVersion>
                <Nullable>enable</Nullable>
                <RadioLintNamespace>Larkfield</RadioLintNamespace>
                <RadioLintAccess>public</RadioLintAccess>
              </PropertyGroup>
              <ItemGroup>
                <PackageReference Include="RadioLint" Version="*" />
                <PackageReference Include="System.Memory" Version="4.6.3" />
              </ItemGroup>
            </Project>
            """);
        await consumer.MustBuild("library", "radiolint", Strict);
        var docs = XDocument.Load(consumer.At("library/bin/Debug/netstandard2.0/library.xml"));
        Assert.Contains("P:Larkfield.LarkfieldApiary.Payloads.Reading.Temperature", docs.Descendants("member").Select(member => member.Attribute("name")!.Value));
    }

    [Fact]
    public async Task The_package_holds_what_the_compiler_needs_and_no_more()
    {
        using var package = await ZipFile.OpenReadAsync(Packed.FileOf(await packed.Host(), "RadioLint"), TestContext.Current.CancellationToken);
        Assert.Equal(
            [
                "README.md", "analyzers/dotnet/cs/RadioLint.Analyzers.dll", "analyzers/dotnet/cs/RadioLint.CodeFixes.dll", "analyzers/dotnet/cs/RadioLint.Core.dll", "analyzers/dotnet/cs/YamlDotNet.dll",
                "build/RadioLint.props", "build/RadioLint.targets", "buildMultiTargeting/RadioLint.props", "buildMultiTargeting/RadioLint.targets",
                "buildTransitive/RadioLint.props", "buildTransitive/RadioLint.targets",
            ],
            package.Entries.Select(entry => entry.FullName).Where(name => !name.StartsWith("package/", StringComparison.Ordinal) && !name.StartsWith("_rels/", StringComparison.Ordinal) && name != "[Content_Types].xml" && name != "RadioLint.nuspec").Order(StringComparer.Ordinal));
        await using var stream = await package.GetEntry("RadioLint.nuspec")!.OpenAsync(TestContext.Current.CancellationToken);
        var nuspec = (await XDocument.LoadAsync(stream, LoadOptions.None, TestContext.Current.CancellationToken)).ToString();
        Assert.Contains("<developmentDependency>true</developmentDependency>", nuspec, StringComparison.Ordinal);
        Assert.DoesNotContain("<dependency ", nuspec, StringComparison.Ordinal);
    }
}
