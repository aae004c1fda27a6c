using System.Globalization;
using Proof;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Tests.Proof.Host;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>
/// Every single bit of every frame table flipped, and every field of the register image moved by one step: the header runs from a dirty radio, and registers,
/// violations or the exact list of frames must tell.
/// </summary>
public sealed class TableMutants : IDisposable
{
    private readonly Workshop shop = new();

    public static TheoryData<string> All() => ExampleNetworks.All();

    public void Dispose() => shop.Dispose();

    [Theory, MemberData(nameof(All))]
    public async Task Every_single_bit_of_a_table_is_noticed(string path)
    {
        var network = await Read(path);
        using var program = await HostBuild.Build(shop, "bits", network.Shared, [.. network.Nodes.Values]);
        var tally = new Tally("Table");
        foreach (var (name, node) in network.Nodes)
        {
            var expected = network.Expected[name];
            foreach (var table in node.Tables)
            {
                var bytes = program.Table(node, table);
                for (var bit = 0; bit < bytes.Length * 8; bit++)
                {
                    var change = (At: bit / 8, Instead: (byte)(bytes[bit / 8] ^ (1 << (bit % 8))));
                    foreach (var verdict in Runs(program, node, expected, table, change))
                        tally.Add($"{name} {table}", string.Create(CultureInfo.InvariantCulture, $"bit {bit % 8} of byte {bit / 8}"), verdict);
                }
            }
        }
        Assert.True(tally.Mutants > 500);
        tally.Close();
    }

    [Theory, MemberData(nameof(All))]
    public async Task Every_field_of_the_register_image_a_step_off_is_noticed(string path)
    {
        var network = await Read(path);
        using var program = await HostBuild.Build(shop, "fields", network.Shared, [.. network.Nodes.Values]);
        var tally = new Tally("Field");
        foreach (var (name, node) in network.Nodes)
        {
            foreach (var (field, at, instead) in Steps(program.Table(node, "frames"), network.Expected[name].Table))
            {
                foreach (var verdict in Runs(program, node, network.Expected[name], "frames", (at, instead)))
                    tally.Add(field, string.Create(CultureInfo.InvariantCulture, $"{name}: byte {at} {instead:X2}"), verdict);
            }
        }
        Assert.True(tally.Mutants > 100);
        tally.Close();
    }

    private static IEnumerable<Verdict> Runs(HostProgram program, EmittedNode node, Expected expected, string table, (int At, byte Instead) change)
    {
        var trial = new Trial(program, node, expected);
        foreach (var dirt in Dirt.Of(expected))
        {
            var board = dirt.Board();
            if (table == "frames")
            {
                yield return trial.Configure(dirt, board, change);
                continue;
            }
            var role = table[..^"_frames".Length];
            trial.Configure(dirt, board, null);
            foreach (var before in expected.Roles.Keys.TakeWhile(other => other != role))
                trial.Role(dirt, board, before, null);
            yield return trial.Role(dirt, board, role, change);
        }
    }

    // Each field up and down by one where it has room, round its end where not; bytes of addresses likewise.
    private static IEnumerable<(string Field, int At, byte Instead)> Steps(byte[] table, RegisterTable registers)
    {
        for (var at = 0; table[at] != 0; at += table[at] + 1)
        {
            if (table[at + 1] is not (>= 0x20 and < 0x40 and var word))
                continue;
            var fields = registers.Fields.Where(field => field.Address == (word & 0x1F) && field.High < 8).ToList();
            for (var i = 0; i < table[at] - 1; i++)
            {
                var (place, held) = (at + 2 + i, table[at + 2 + i]);
                var wide = string.Create(CultureInfo.InvariantCulture, $"address register {word & 0x1F:X2}");
                foreach (var (name, low, most) in fields.Count > 0 ? fields.Select(field => ($"{field.Register}.{field.Name}", field.Low, field.Most)) : [(wide, 0, 0xFF)])
                {
                    var now = (held >> low) & most;
                    foreach (var step in new[] { (now + 1) & most, (now - 1) & most }.Distinct())
                        yield return (name, place, (byte)((held & ~(most << low)) | (step << low)));
                }
            }
        }
    }

    private static async Task<JudgedNetwork> Read(string path) =>
        Networks.Judge(await File.ReadAllTextAsync(Path.Combine(Networks.Root, path), TestContext.Current.CancellationToken));
}
