using System.Globalization;
using Proof;
using RadioLint.Emit;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Tests.Proof.Host;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>
/// A network with every choice written, planned with one of them changed by one step: the headers that come out must not pass for the unchanged network's.
/// </summary>
public sealed class PlanMutants : IDisposable
{
    private const string Manifest = """
        radiolint: 1
        network: steps
        region: GB
        air:
          channel: 40
          rate: 1 Mbps
          address-width: 4
          crc: 2 bytes
          acknowledge: true
          payload-length: dynamic
          retry: { delay: 1500 us, limit: 9 }
        all-nodes:
          board: esp32
          wires: 5 cm
          supply: { from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }
          pins: { ce: GPIO27, csn: GPIO5, irq: { pin: GPIO4, trigger: falling edge, for: [received, sent] } }
        nodes:
          hub: { power: -6 dBm }
          far: { radio: { part: nRF24L01 }, power: -12 dBm, retry: { delay: 2000 us, limit: 4 } }
          mast: { radio: { part: Si24R1 }, power: 3 dBm }
          well: { power: 0 dBm, pipes: { 1: { address: 0xB4D29C71 }, 2: { address: 0x5A, payload-length: 12 bytes, acknowledge: false } } }
        links:
          - { from: far, to: hub, payload: reading, every: 1 min, address: 0xC2A7D19B, pipe: 1 }
          - { from: mast, to: hub, payload: tally, every: 1 min, address: 0xC2A7D14D, pipe: 2 }
          - { from: mast, to: hub, payload: alarm, every: 1 h, address: 0x9A35C768, pipe: 0, acknowledge: false }
          - { from: hub, to: mast, payload: order, with: acknowledgement }
          - { from: well, to: hub, payload: reading, every: 1 min, address: 0xC2A7D1E3, pipe: 3 }
          - { from: hub, to: well, payload: order, every: 1 h, address: 0xB4D29C71, pipe: 1 }
        payloads:
          reading: { weight: int32 g, sequence: uint8 }
          tally: { jars: uint16, sequence: uint8 }
          alarm: { cause: uint8 }
          order: { interval: uint16 s }
        """;

    // One field and its next value; where a field stands several times, the text round it says which is meant.
    private static readonly (string Field, string Text, string Instead)[] Steps =
    [
        ("channel", "channel: 40", "channel: 41"),
        ("channel", "channel: 40", "channel: 39"),
        ("rate", "rate: 1 Mbps", "rate: 2 Mbps"),
        ("CRC", "crc: 2 bytes", "crc: 1 byte"),
        ("CRC", "crc: 2 bytes", "crc: none"),
        ("acknowledgement", "acknowledge: true", "acknowledge: false"),
        ("length mode", "payload-length: dynamic", "payload-length: exact"),
        ("length mode", "payload-length: dynamic", "payload-length: 6 bytes"),
        ("retry delay", "delay: 1500 us", "delay: 1750 us"),
        ("retry delay", "delay: 1500 us", "delay: 1250 us"),
        ("retry limit", "limit: 9", "limit: 10"),
        ("retry limit", "limit: 9", "limit: 8"),
        ("retry delay of a node", "delay: 2000 us", "delay: 2250 us"),
        ("retry limit of a node", "limit: 4", "limit: 5"),
        ("power", "power: -6 dBm", "power: 0 dBm"),
        ("power", "power: -6 dBm", "power: -12 dBm"),
        ("power", "power: -12 dBm", "power: -6 dBm"),
        ("power", "power: 3 dBm", "power: 4 dBm"),
        ("power", "power: 3 dBm", "power: 1 dBm"),
        ("power", "power: 0 dBm", "power: -6 dBm"),
        ("interrupt", "for: [received, sent]", "for: [received]"),
        ("interrupt", "for: [received, sent]", "for: [sent]"),
        ("interrupt", "for: [received, sent]", "for: [received, sent, gave up]"),
        ("part", "part: nRF24L01 }", "part: nRF24L01+ }"),
        ("part", "hub: { power: -6 dBm }", "hub: { radio: { part: Si24R1 }, power: -6 dBm }"),
        ("test signal", "hub: { power: -6 dBm }", "hub: { power: -6 dBm, test: pll-lock }"),
        ("test signal", "hub: { power: -6 dBm }", "hub: { power: -6 dBm, test: carrier }"),
        ("EN_DYN_ACK", "hub: { power: -6 dBm }", "hub: { power: -6 dBm, air: { no-acknowledge: true } }"),
        ("EN_DYN_ACK", "power: 3 dBm }", "power: 3 dBm, air: { no-acknowledge: false } }"),
        ("address", "0xC2A7D19B", "0xC2A7D19C"),
        ("address", "0xC2A7D14D", "0xC2A7D14C"),
        ("address", "0x9A35C768", "0x9A35C769"),
        ("address", "0x9A35C768", "0x1A35C768"),
        ("address", "0xC2A7D1E3", "0xC2A7D1E2"),
        ("address", "every: 1 h, address: 0xB4D29C71", "every: 1 h, address: 0xB4D29C70"),
        ("address", "1: { address: 0xB4D29C71", "1: { address: 0xB5D29C71"),
        ("address", "2: { address: 0x5A", "2: { address: 0x5B"),
        ("pipe", "0xC2A7D19B, pipe: 1", "0xC2A7D19B, pipe: 4"),
        ("pipe", "0xC2A7D14D, pipe: 2", "0xC2A7D14D, pipe: 4"),
        ("pipe", "0xC2A7D1E3, pipe: 3", "0xC2A7D1E3, pipe: 4"),
        ("pipe", "2: { address: 0x5A", "3: { address: 0x5A"),
        ("pipe", "0x5A, payload-length: 12 bytes, acknowledge: false } }", "0x5A, payload-length: 12 bytes, acknowledge: false }, 0: closed }"),
        ("length of a pipe", "payload-length: 12 bytes", "payload-length: 13 bytes"),
        ("acknowledgement of a pipe", "payload-length: 12 bytes, acknowledge: false", "payload-length: 12 bytes, acknowledge: true"),
        ("acknowledgement of a link", "pipe: 0, acknowledge: false", "pipe: 0, acknowledge: true"),
        ("acknowledgement of a link", "0xC2A7D1E3, pipe: 3", "0xC2A7D1E3, pipe: 3, acknowledge: false"),
        ("payload that rides back", "payload: order, with: acknowledgement", "payload: order, every: 1 h, address: 0xD1936CA5, pipe: 1"),
        ("payload of a link", "hub, payload: tally", "hub, payload: reading"),
        ("bytes of a payload", "jars: uint16", "jars: uint32"),
        ("bytes of a payload", "interval: uint16 s", "interval: uint8 s"),
        ("receiver of a link", "from: far, to: hub, payload: reading, every: 1 min, address: 0xC2A7D19B, pipe: 1", "from: far, to: well, payload: reading, every: 1 min, address: 0xB4D29C71, pipe: 1"),
    ];

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Every_field_of_a_plan_a_step_off_is_noticed()
    {
        var wanted = Plan.Read(Manifest);
        var mutants = Steps.Select((step, i) => (step.Field, Step: $"{step.Text} to {step.Instead}", Network: Emit(Changed(step), string.Create(CultureInfo.InvariantCulture, $"x{i}_")))).ToList();
        var same = Emit(Manifest, "same_");
        using var program = await HostBuild.Build(shop, "plans", Shared(Manifest), [.. same.Values, .. mutants.SelectMany(mutant => mutant.Network.Values)]);
        Assert.Equal(4, same.Count);
        Assert.All(same, node => Assert.Equal("", Judge(program, node.Value, wanted[node.Key]).ToString()));
        var tally = new Tally("Field of the plan", "Frames or constants alone");
        foreach (var (field, step, network) in mutants)
        {
            // Which nodes a step concerns is not said; one that tells is enough, the clearest counts.
            var verdicts = network.Select(node => Judge(program, node.Value, wanted[node.Key])).ToList();
            tally.Add(field, step, verdicts.MaxBy(verdict => verdict switch { { Registers.Count: > 0 } => 3, { Violations.Count: > 0 } => 2, { Frames.Count: > 0 } => 1, _ => 0 })!);
        }
        tally.Close();
    }

    private static Verdict Judge(HostProgram program, EmittedNode node, Expected expected)
    {
        var roles = expected.Roles.Keys.Except(node.Functions).Select(role => $"{role} is missing").ToList();
        var verdict = roles.Count > 0 ? new([], [], roles) : new Trial(program, node, expected).All();
        return verdict.IsClean ? verdict with { Frames = [.. HeaderJudge.Faults(node, expected)] } : verdict;
    }

    private static string Changed((string Field, string Text, string Instead) step)
    {
        Assert.Equal(2, Manifest.Split(step.Text).Length);
        return Manifest.Replace(step.Text, step.Instead, StringComparison.Ordinal);
    }

    // Emitted even where the linter has found an error: here the encoder alone must notice.
    private static SortedDictionary<string, EmittedNode> Emit(string manifest, string mark)
    {
        var network = Linter.Check(new SourceText("steps.radio.yaml", manifest)).Network!;
        var files = EmitSet.Of(network, new()).Files;
        var nodes = network.Nodes.Where(node => files.Any(file => file.Name == $"{node.Name}_radio.h"))
            .ToDictionary(node => node.Name, node => new EmittedNode(node.Name, files.Single(file => file.Name == $"{node.Name}_radio.h").Text, mark));
        Assert.True(nodes.Count > 0, manifest);
        return new(nodes, StringComparer.Ordinal);
    }

    private static IEnumerable<(string Name, string Text)> Shared(string manifest) => Networks.Emit(manifest)!.Shared;
}
