using System.Globalization;
using Proof;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Tests.Proof.Host;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>
/// Networks at random: RADIOLINT_HEADERS sets how many are judged, RADIOLINT_SEED the first seed. Those with errors are drawn again; what the second encoder has no
/// opinion on is counted.
/// </summary>
public sealed class DrawnNetworks : IDisposable
{
    private const int InCi = 300;
    private const int APart = 150;

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Headers_of_drawn_networks_do_what_the_second_encoder_expects()
    {
        var (wanted, first) = ((int)Setting("RADIOLINT_HEADERS", InCi), (ulong)Setting("RADIOLINT_SEED", 1));
        var parts = await Task.WhenAll(Enumerable.Range(0, (wanted + APart - 1) / APart).Select(part =>
            Task.Run(() => Part(part, Math.Min(APart, wanted - (part * APart)), (first * 1_000_003) + (ulong)part))));
        var counts = parts.Aggregate((one, other) => one + other);
        TestContext.Current.TestOutputHelper?.WriteLine(counts.ToString());
        Assert.Equal(wanted, counts.Networks);
        // The draw must reach what it is for, and the encoder must have an opinion nearly always.
        Assert.True(counts.Unjudged * 20 <= counts.Networks && counts.Refused <= counts.Networks, counts.ToString());
        Assert.True(counts.Nodes >= 3 * counts.Networks && counts.Roles > counts.Networks / 2 && counts.Earlier * 20 > counts.Nodes && counts.Tied * 50 > counts.Nodes, counts.ToString());
    }

    private async Task<Counts> Part(int part, int wanted, ulong seed)
    {
        var draw = new Draw(seed);
        var counts = new Counts();
        var networks = new List<JudgedNetwork>();
        for (var i = 0; networks.Count < wanted; i++)
        {
            Assert.True(i < wanted * 10, "nearly every draw is refused");
            var manifest = draw.Next(string.Create(CultureInfo.InvariantCulture, $"m{part}x{i}"));
            if (Networks.Emit(manifest) is not { } files)
            {
                counts.Refused++;
                continue;
            }
            try
            {
                networks.Add(new(manifest, files, Plan.Read(manifest)));
            }
            catch (UnjudgedException)
            {
                counts.Unjudged++;
            }
        }
        using var program = await HostBuild.Build(shop, string.Create(CultureInfo.InvariantCulture, $"part{part}"), networks[0].Shared, [.. networks.SelectMany(network => network.Nodes.Values)]);
        foreach (var network in networks)
        {
            counts.Networks++;
            Assert.Equal(network.Expected.Count, network.Nodes.Count);
            foreach (var (name, node) in network.Nodes)
            {
                var expected = network.Expected[name];
                counts.Nodes++;
                counts.Roles += expected.Roles.Count;
                counts.Earlier += expected.Hidden is null ? 0 : 1;
                counts.Tied += expected.Node.HasTiedCe ? 1 : 0;
                var verdict = new Trial(program, node, expected).All();
                Assert.True(verdict.IsClean, $"{verdict}\n{name} of\n{network.Manifest}");
                var faults = string.Join("\n", HeaderJudge.Faults(node, expected));
                Assert.True(faults.Length == 0, $"{faults}\n{network.Manifest}");
            }
        }
        return counts;
    }

    private static long Setting(string name, long otherwise) =>
        long.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : otherwise;

    private sealed record Counts
    {
        public int Networks { get; set; }
        public int Nodes { get; set; }
        public int Roles { get; set; }
        public int Earlier { get; set; }
        public int Tied { get; set; }
        public int Refused { get; set; }
        public int Unjudged { get; set; }

        public static Counts operator +(Counts one, Counts other) => new()
        {
            Networks = one.Networks + other.Networks,
            Nodes = one.Nodes + other.Nodes,
            Roles = one.Roles + other.Roles,
            Earlier = one.Earlier + other.Earlier,
            Tied = one.Tied + other.Tied,
            Refused = one.Refused + other.Refused,
            Unjudged = one.Unjudged + other.Unjudged,
        };
    }
}
