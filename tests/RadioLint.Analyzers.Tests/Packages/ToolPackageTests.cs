using System.IO.Compression;
using System.Xml.Linq;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Packages;

/// <summary>The package `RadioLint.Tool`: the pointer, and the package for any runtime. The native one takes too long to make here.</summary>
public sealed class ToolPackageTests(Packed packed)
{
    // The machine gives itself out for another, for which there is no native package.
    private const string Elsewhere = "DOTNET_RUNTIME_ID=linux-arm64";

    [Fact]
    public async Task It_installs_and_checks_the_apiary()
    {
        using var consumer = new Consumer(await packed.Tool());
        await consumer.MustRun("env", Elsewhere, "dotnet", "tool", "install", "RadioLint.Tool", "--version", "*", "--tool-path", consumer.At("tools"), "--configfile", consumer.Settings);
        Assert.True(Directory.Exists(consumer.At("tools/.store/radiolint.tool")));
        var command = consumer.At("tools/radiolint");
        var said = await consumer.MustRun(command, "check", Repository.ApiaryPath);
        Assert.Matches(@"\nchecked 1 network \(8 nodes, 6 links\) by \d+ rules: 7 info\n$", said);
        Assert.Contains($"{Repository.ApiaryPath}:47:12: info RL1303: ", said, StringComparison.Ordinal);

        await consumer.MustRun(command, "emit", consumer.Write("field/first-pair.radio.yaml", await File.ReadAllTextAsync(
            Path.Combine(Repository.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml"), TestContext.Current.CancellationToken)), "--out", consumer.At("firmware"));
        Assert.True(File.Exists(consumer.At("firmware/hall_radio.h")));
    }

    [Fact]
    public async Task The_pointer_names_a_package_for_each_kind_of_machine()
    {
        using var package = await ZipFile.OpenReadAsync(Packed.FileOf(await packed.Tool(), "RadioLint.Tool"), TestContext.Current.CancellationToken);
        await using var stream = await package.GetEntry("tools/any/any/DotnetToolSettings.xml")!.OpenAsync(TestContext.Current.CancellationToken);
        var settings = await XDocument.LoadAsync(stream, LoadOptions.None, TestContext.Current.CancellationToken);
        Assert.Equal(
            ["RadioLint.Tool.any", "RadioLint.Tool.linux-x64"],
            settings.Descendants("RuntimeIdentifierPackage").Select(one => one.Attribute("Id")!.Value).Order(StringComparer.Ordinal));
    }
}
