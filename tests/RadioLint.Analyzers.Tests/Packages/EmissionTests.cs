using System.Globalization;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>`RadioLintEmit` in a stranger's project: headers come with the build, by the command of this repository, and only when something changed.</summary>
public sealed class EmissionTests(Packed packed)
{
    private const string Manifest = "host/first-pair.radio.yaml";

    [Fact]
    public async Task Headers_follow_the_manifest_and_cost_nothing_while_it_stays()
    {
        using var site = new Site(await packed.Host());
        site.Write("host/parts.yaml", "payloads: { reading: { temperature: int16 0.1 degC in -40..85, sequence: uint8 } }\n");
        site.Change(Manifest, "network: first-pair\n", "network: first-pair\ninclude: [parts.yaml]\n");
        site.Change(Manifest, "payloads:\n  reading: { temperature: int16 0.1 degC in -40..85, sequence: uint8 }\n", "");
        site.WriteProject("""<AdditionalFiles Include="parts.yaml" />""");

        await site.Emits();
        Assert.True(File.Exists(site.At("host/first-pair.radio.issued.json")));
        await site.EmitsNothing();

        Assert.Contains("HALL_CHANNEL 74", site.Header("hall"), StringComparison.Ordinal);
        site.Change(Manifest, "channel: 74", "channel: 76");
        await site.Emits();
        Assert.Contains("HALL_CHANNEL 76", site.Header("hall"), StringComparison.Ordinal);
        await site.EmitsNothing();

        Assert.DoesNotContain("uint16_t sequence", site.Header("cellar"), StringComparison.Ordinal);
        site.Change("host/parts.yaml", "uint8", "uint16");
        await site.Emits();
        Assert.Contains("uint16_t sequence", site.Header("cellar"), StringComparison.Ordinal);

        File.Delete(site.At("host/firmware/hall_radio.h"));
        await site.Emits();
        Assert.Contains("HALL_CHANNEL 76", site.Header("hall"), StringComparison.Ordinal);
        await site.EmitsNothing();

        // What is cleaned is what the build noted, not what the user keeps.
        await site.MustRun("dotnet", "clean", site.At("host"), "-nologo", $"-p:RadioLintCommand={site.Command}");
        Assert.Contains("HALL_CHANNEL 76", site.Header("hall"), StringComparison.Ordinal);
        await site.Emits();
    }

    [Fact]
    public async Task Templates_and_settings_are_part_of_it()
    {
        using var site = new Site(await packed.Host());
        site.WriteProject("");
        string[] own = ["-p:RadioLintTemplates=own", "-p:RadioLintEmitFolder=../node/include", "-p:RadioLintEmitOptions=--node hall"];
        await site.Emits(own);
        Assert.False(File.Exists(site.At("node/include/cellar_radio.h")));
        await site.EmitsNothing(own);

        var template = File.ReadAllText(Path.Combine(Repository.Root, "templates", "firmware", "constants.sbn"));
        site.Write("host/own/constants.sbn", "/* mine */\n" + template);
        await site.Emits(own);
        Assert.Contains("/* mine */", File.ReadAllText(site.At("node/include/hall_radio.h")), StringComparison.Ordinal);
        site.Write("host/own/constants.sbn", "/* yours */\n" + template);
        await site.Emits(own);
        Assert.Contains("/* yours */", File.ReadAllText(site.At("node/include/hall_radio.h")), StringComparison.Ordinal);
        await site.EmitsNothing(own);
        File.Delete(site.At("host/own/constants.sbn"));
        await site.Emits(own);
        Assert.DoesNotContain("/* yours */", File.ReadAllText(site.At("node/include/hall_radio.h")), StringComparison.Ordinal);

        site.Write(".radiolint.yaml", "rules: { RL8304: silent }\n");
        await site.Emits(own);
        await site.EmitsNothing(own);
    }

    [Fact]
    public async Task What_stands_in_the_way_is_an_error_with_its_place()
    {
        using var site = new Site(await packed.Host());
        site.WriteProject("");
        var missing = await site.Fails("-p:RadioLintCommand=no-such-radiolint");
        Assert.Equal(
            [$"{site.At("host/host.csproj")} : error : RadioLintEmit needs the command `no-such-radiolint`, which was not found; install it with `dotnet tool install --global RadioLint.Tool`, or set RadioLintCommand to how it is called, such as `dotnet radiolint`"],
            missing);

        site.Change(Manifest, "channel: 74", "channel: 126");
        var line = File.ReadAllText(site.At(Manifest)).Split('\n').Index().Single(line => line.Item.Contains("126", StringComparison.Ordinal));
        // The compiler says it first, once; where it is kept silent, the command says it.
        var runs = site.Runs;
        Assert.Contains(": error RL3001: ", Assert.Single(await site.Fails()), StringComparison.Ordinal);
        Assert.Equal(runs, site.Runs);
        var wrong = await site.Fails("-p:NoWarn=RL3001");
        Assert.Equal(2, wrong.Length);
        Assert.StartsWith(
            string.Create(CultureInfo.InvariantCulture, $"{site.At(Manifest)}({line.Index + 1},{line.Item.IndexOf("126", StringComparison.Ordinal) + 1}): error RL3001: "), wrong[0], StringComparison.Ordinal);
        Assert.Equal($"{site.At(Manifest)} : error : nothing is emitted until the errors above are mended [{site.At("host/host.csproj")}]", wrong[1]);
        Assert.False(Directory.Exists(site.At("host/firmware")));

        // What the compiler stops at is not followed by a second opinion.
        site.Write("host/Unfinished.cs", "class Unfinished {");
        var before = site.Runs;
        Assert.Contains("error CS1513", Assert.Single(await site.Fails()), StringComparison.Ordinal);
        Assert.Equal(before, site.Runs);
        File.Delete(site.At("host/Unfinished.cs"));

        site.Change(Manifest, "channel: 126", "channel: 76");
        await site.Emits();
        File.AppendAllText(site.At("host/firmware/hall_radio.h"), "/* mine */\n");
        var edited = await site.Fails();
        Assert.StartsWith($"{site.At("host/firmware/hall_radio.h")}(1", edited[0], StringComparison.Ordinal);
        Assert.Contains(": error RL8202: ", edited[0], StringComparison.Ordinal);

        var misused = await site.Fails("-p:RadioLintEmitOptions=--chek");
        Assert.Equal([$"{site.At(Manifest)} : error : nothing is emitted: `{site.Command}` ended with 2 and said: radiolint: `radiolint emit` has no option `--chek`; write `--check` [{site.At("host/host.csproj")}]"], misused);
    }

    [Fact]
    public async Task It_emits_once_for_who_asked()
    {
        using var site = new Site(await packed.Host());
        // Two frameworks, and a second project that inherits the package and has a manifest of its own.
        site.WriteProject("""<PackageReference Include="System.Memory" Version="4.6.3" />""", "net10.0;netstandard2.0");
        site.Write("app/second-pair.radio.yaml", File.ReadAllText(site.At(Manifest)).Replace("first-pair", "second-pair", StringComparison.Ordinal));
        site.Write("app/app.csproj", """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <TargetFramework>net10.0</TargetFramework>
                <RadioLintNamespace>Field</RadioLintNamespace>
              </PropertyGroup>
              <ItemGroup>
                <ProjectReference Include="../host/host.csproj" />
              </ItemGroup>
            </Project>
            """);
        site.Write("app/App.cs", "static class App { public static string Network => Field.SecondPair.Name; }\n");
        await site.MustBuild("app", "radiolint", $"-p:RadioLintCommand={site.Command}");
        Assert.Equal(1, site.Runs);
        Assert.False(Directory.Exists(site.At("app/firmware")));
        site.Change(Manifest, "channel: 74", "channel: 76");
        await site.Emits();
        await site.EmitsNothing();

        // What an editor asks for: single targets, and builds that say so.
        site.Change(Manifest, "channel: 76", "channel: 78");
        await site.EmitsNothing("-p:SkipCompilerExecution=true", "-p:ProvideCommandLineArgs=true", "-t:Compile", "-f", "net10.0");
        await site.EmitsNothing("-p:DesignTimeBuild=true", "-f", "net10.0");
        Assert.Contains("HALL_CHANNEL 76", site.Header("hall"), StringComparison.Ordinal);
    }

    /// <summary>A project with the smaller example, and a command that keeps count of its runs.</summary>
    private sealed class Site : IDisposable
    {
        private readonly Consumer consumer;

        public Site(string feed)
        {
            consumer = new(feed);
            Write(Manifest, File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml")));
            Command = "sh " + Write("radiolint", $"echo run >> '{At("runs")}'\nexec dotnet '{Packed.Command}' \"$@\"\n");
        }

        public string Command { get; }

        public int Runs => File.Exists(At("runs")) ? File.ReadAllLines(At("runs")).Length : 0;

        public string At(string below) => consumer.At(below);

        public string Write(string below, string text) => consumer.Write(below, text);

        public void Change(string below, string before, string after) => consumer.Change(below, before, after);

        public string Header(string node) => File.ReadAllText(At($"host/firmware/{node}_radio.h"));

        public void WriteProject(string items, string frameworks = "net10.0") => Write("host/host.csproj", $"""
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <TargetFrameworks Condition="{(frameworks.Contains(';', StringComparison.Ordinal) ? "true" : "false")}">{frameworks}</TargetFrameworks>
                <TargetFramework Condition="'$(TargetFrameworks)' == ''">{frameworks}</TargetFramework>
                <LangVersion>latest</LangVersion>
                <RadioLintEmit>true</RadioLintEmit>
              </PropertyGroup>
              <ItemGroup>
                <PackageReference Include="RadioLint" Version="*" PrivateAssets="none" />
                {items}
              </ItemGroup>
            </Project>
            """);

        public Task<string> MustBuild(string project, string package, params IEnumerable<string> more) => consumer.MustBuild(project, package, more);

        public Task<string> MustRun(string program, params IEnumerable<string> arguments) => consumer.MustRun(program, arguments);

        public async Task Emits(params string[] more)
        {
            var before = Runs;
            var output = await MustBuild("host", "radiolint", [$"-p:RadioLintCommand={Command}", .. more]);
            Assert.Contains($"{At(Manifest)} -> ", output, StringComparison.Ordinal);
            Assert.Equal(before + 1, Runs);
        }

        public async Task EmitsNothing(params string[] more)
        {
            var before = Runs;
            var output = await MustBuild("host", "radiolint", [$"-p:RadioLintCommand={Command}", .. more]);
            Assert.DoesNotContain($"{At(Manifest)} -> ", output, StringComparison.Ordinal);
            Assert.Equal(before, Runs);
        }

        /// <summary>The errors, each once.</summary>
        public async Task<string[]> Fails(params string[] more)
        {
            var (status, output) = await consumer.Build("host", "radiolint", [$"-p:RadioLintCommand={Command}", "-clp:NoSummary", .. more]);
            Assert.Equal(1, status);
            return [.. output.Split('\n').Select(line => line.Trim()).Where(line => line.Contains(": error", StringComparison.Ordinal)).Distinct()];
        }

        public void Dispose() => consumer.Dispose();
    }
}
