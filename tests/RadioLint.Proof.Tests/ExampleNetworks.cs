using Proof;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Tests.Proof.Host;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>The headers of every example network, compiled for this machine and run on the chip model from a dirty radio.</summary>
public sealed class ExampleNetworks : IDisposable
{
    private readonly Workshop shop = new();

    public static TheoryData<string> All() => new(Networks.Examples.Select(path => Path.GetRelativePath(Networks.Root, path).Replace('\\', '/')));

    public void Dispose() => shop.Dispose();

    [Fact]
    public void There_are_some() => Assert.Superset(
        new HashSet<string> { "larkfield-apiary.radio.yaml", "first-pair.radio.yaml", "bench.radio.yaml", "store.radio.yaml", "avr.radio.yaml" },
        Networks.Examples.Select(path => Path.GetFileName(path)).ToHashSet());

    [Theory, MemberData(nameof(All))]
    public async Task Registers_frames_and_violations_are_those_of_the_second_encoder(string path)
    {
        var network = Networks.Judge(await File.ReadAllTextAsync(Path.Combine(Networks.Root, path), TestContext.Current.CancellationToken));
        Assert.Equal(network.Expected.Count, network.Nodes.Count);
        using var program = await HostBuild.Build(shop, "host", network.Shared, [.. network.Nodes.Values]);
        Assert.All(network.Nodes, node =>
        {
            var expected = network.Expected[node.Key];
            Assert.Equal(new[] { "configure", "verify" }.Concat(expected.Roles.Keys).Concat(expected.Listens ? ["listen"] : []).Distinct().Order(), node.Value.Functions.Order());
            var verdict = new Trial(program, node.Value, expected).All();
            Assert.True(verdict.IsClean, verdict.ToString());
        });
    }

    [Theory, MemberData(nameof(All))]
    public async Task Constants_are_those_of_the_second_encoder(string path)
    {
        var network = Networks.Judge(await File.ReadAllTextAsync(Path.Combine(Networks.Root, path), TestContext.Current.CancellationToken));
        Assert.All(network.Nodes, node => Assert.Empty(HeaderJudge.Faults(node.Value, network.Expected[node.Key])));
    }
}
