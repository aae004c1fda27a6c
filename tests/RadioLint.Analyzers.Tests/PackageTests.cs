using System.IO.Compression;
using System.Xml.Linq;
using RadioLint.Tests.Analyzers.Support;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers;

/// <summary>The package as a stranger's project sees it: packed, restored from a folder into an empty cache, built by the SDK at its strictest.</summary>
public sealed class PackageTests : IDisposable
{
    private static readonly string[] Strict =
    [
        "-p:AnalysisLevel=latest-all", "-p:TreatWarningsAsErrors=true", "-p:EnforceCodeStyleInBuild=true", "-p:GenerateDocumentationFile=true", "-p:CheckForOverflowUnderflow=true",
    ];

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task A_new_project_builds_and_runs_with_it()
    {
        var feed = await Pack();
        shop.Write("host/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath));
        shop.Write("host/host.csproj", """
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
        shop.Write("host/Program.cs", """
            using System;
            using Larkfield.Host;

            var bytes = new byte[LarkfieldApiary.Payloads.Reading.Size];
            LarkfieldApiary.Payloads.Reading.FromValues(weight: 41250, temperature: 34.8, battery: 2950, sequence: 7).Write(bytes);
            Console.WriteLine($"{LarkfieldApiary.Air.Channel} {Convert.ToHexString(bytes)}");
            """);
        await Build("host", feed);
        // 41250 is A122, 3480 is 0D98, 2950 is 0B86; little-endian.
        Assert.Equal("74 22A10000980D860B07", (await shop.MustRun("dotnet", Path.Combine(shop.Folder, "host", "bin", "Debug", "net10.0", "host.dll"))).Trim());
    }

    [Fact]
    public async Task A_library_for_netstandard2_and_C_sharp_10_builds_and_shows_its_types()
    {
        var feed = await Pack();
        shop.Write("library/deep/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath));
        shop.Write("library/library.csproj", """
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
        await Build("library", feed);
        var docs = XDocument.Load(Path.Combine(shop.Folder, "library", "bin", "Debug", "netstandard2.0", "library.xml"));
        Assert.Contains("P:Larkfield.LarkfieldApiary.Payloads.Reading.Temperature", docs.Descendants("member").Select(member => member.Attribute("name")!.Value));
    }

    [Fact]
    public async Task The_package_holds_what_the_compiler_needs_and_no_more()
    {
        var feed = await Pack();
        using var package = await ZipFile.OpenReadAsync(Directory.EnumerateFiles(feed, "RadioLint.*.nupkg").Single(), TestContext.Current.CancellationToken);
        Assert.Equal(
            ["README.md", "analyzers/dotnet/cs/RadioLint.Analyzers.dll", "analyzers/dotnet/cs/RadioLint.Core.dll", "analyzers/dotnet/cs/YamlDotNet.dll", "build/RadioLint.props", "buildTransitive/RadioLint.props"],
            package.Entries.Select(entry => entry.FullName).Where(name => !name.StartsWith("package/", StringComparison.Ordinal) && !name.StartsWith("_rels/", StringComparison.Ordinal) && name != "[Content_Types].xml" && name != "RadioLint.nuspec").Order(StringComparer.Ordinal));
        await using var stream = await package.GetEntry("RadioLint.nuspec")!.OpenAsync(TestContext.Current.CancellationToken);
        var nuspec = (await XDocument.LoadAsync(stream, LoadOptions.None, TestContext.Current.CancellationToken)).ToString();
        Assert.Contains("<developmentDependency>true</developmentDependency>", nuspec, StringComparison.Ordinal);
        Assert.DoesNotContain("<dependency ", nuspec, StringComparison.Ordinal);
    }

    // What these tests were built with, so nothing is built twice.
    private async Task<string> Pack()
    {
        var configuration = AppContext.BaseDirectory.Contains($"{Path.DirectorySeparatorChar}Release{Path.DirectorySeparatorChar}", StringComparison.Ordinal) ? "Release" : "Debug";
        var feed = Path.Combine(shop.Folder, "feed");
        await shop.MustRun("dotnet", "pack", Path.Combine(Repository.Root, "src", "RadioLint.Analyzers"), "--no-build", "-c", configuration, "-o", feed);
        return feed;
    }

    private async Task Build(string project, string feed)
    {
        shop.Write(Path.Combine(project, "nuget.config"), $"""
            <configuration>
              <packageSources><clear /><add key="feed" value="{feed}" /></packageSources>
              <fallbackPackageFolders><add key="restored before" value="{Repository.Packages}" /></fallbackPackageFolders>
            </configuration>
            """);
        var cache = Path.Combine(shop.Folder, "empty-cache");
        await shop.MustRun("dotnet", ["build", Path.Combine(shop.Folder, project), "-nodeReuse:false", $"-p:RestorePackagesPath={cache}", .. Strict]);
        Assert.True(Directory.Exists(Path.Combine(cache, "radiolint")), "the package did not come from the feed");
    }
}
