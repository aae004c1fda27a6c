using System.Globalization;
using RadioLint.Emit;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Tests.Analyzers.Support;
using RadioLint.Tests.Firmware.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Analyzers.Payloads;

/// <summary>
/// Random payloads, encoded and decoded by the emitted C, compiled by gcc, and by the generated C#: the same bytes, the same values, the same
/// refusals. RADIOLINT_PAYLOADS says how many; 10,000 for the long run.
/// </summary>
public sealed class SameBytesInBothLanguages : IDisposable
{
    private const int Usual = 400;
    private const int EachBatch = 100;
    private const int ValuesEach = 12;

    private readonly Workshop shop = new();
    private readonly Coverage coverage = new();
    private int exchanged;
    private int refused;

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Random_payloads_are_the_same_bytes()
    {
        var wanted = int.TryParse(Environment.GetEnvironmentVariable("RADIOLINT_PAYLOADS"), NumberStyles.None, CultureInfo.InvariantCulture, out var asked) ? asked : Usual;
        var done = 0;
        for (var batch = 0; done < wanted; batch++)
            done += await Compare(batch, Math.Min(EachBatch, wanted - done));
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{done} payloads, {exchanged} packets both ways, {refused} refusals\n{coverage}"));
        Assert.Empty(coverage.Empty);
    }

    private async Task<int> Compare(int batch, int count)
    {
        var isFixed = batch % 4 == 3;
        var (network, text) = Drawn(batch, count, isFixed);
        var payloads = network.Payloads;
        var emitted = EmitSet.Of(network, new() { Nodes = ["far"] });
        Assert.Empty(emitted.Findings.Select(finding => finding.Message));
        foreach (var file in emitted.Files)
            shop.Write(file.Name, file.Text);
        shop.Write("both.c", CSide.Program(payloads));
        await shop.MustRun("gcc", "-std=c99", "-O1", "-Wall", "-Wextra", "-Werror", "-Wno-unused-function", "-Wno-unused-const-variable", "both.c", "-o", "both");

        var host = (HostProgram.Of(text) with { Properties = [("RadioLintNamespace", "Field"), ("RadioLintAccess", "public")] }).Load();
        var exchanges = new List<Exchange>();
        var draw = new ValueDraw(batch + 1000, coverage);
        for (var i = 0; i < payloads.Length; i++)
        {
            var length = isFixed ? 32 : payloads[i].Size;
            coverage.Add(payloads[i], length);
            exchanges.AddRange(Exchanges(CSharpSide.Of(host, $"Field.Field+Payloads+{RadioLint.Analyzers.Generation.CSharp.Pascal(payloads[i].Name)}", payloads[i]), payloads[i], i, length, draw));
        }
        shop.Write("commands.txt", string.Concat(exchanges.Select(one => one.Command + "\n")));
        var answers = (await shop.MustRun(Path.Combine(shop.Folder, "both"), "commands.txt")).Split('\n');
        for (var i = 0; i < exchanges.Count; i++)
            Assert.True(exchanges[i].Answer == answers[i], $"batch {batch}: {exchanges[i].Command}\nC#: {exchanges[i].Answer}\nC:  {answers[i]}\n{Definition(payloads[exchanges[i].Index])}");
        return payloads.Length;
    }

    private sealed record Exchange(int Index, string Command, string Answer);

    private List<Exchange> Exchanges(CSharpSide host, Payload payload, int index, int length, ValueDraw draw)
    {
        var exchanges = new List<Exchange>();
        for (var round = 0; round < ValuesEach; round++)
        {
            var words = draw.Next(payload, spoilt: round % 3 == 2);
            var encoded = host.Encode(words);
            exchanges.Add(new(index, Command('E', index, words), encoded));
            if (CanRemake(payload, words))
                Assert.True(host.Remade(words) == encoded, $"made of values: {host.Remade(words)}, of counts: {encoded}\n{string.Join(' ', words)}\n{Definition(payload)}");
            if (encoded == "refused")
            {
                refused++;
                continue;
            }
            exchanged += 2;
            // What C# wrote is read by both, and says what was said.
            Assert.Equal("read" + string.Concat(words.Select(word => " " + word)), host.Decode(Convert.FromHexString(encoded)));
            AddDecoding(encoded);
            AddSpoilt(Convert.FromHexString(encoded), round);
        }
        // Whatever comes over the air. Text of other nodes is UTF-8; bytes that are none show as U+FFFD in C# and cannot be compared.
        if (!payload.Fields.Any(field => field.Kind is FieldKind.Text))
            AddDecoding(Convert.ToHexString(draw.Bytes(length)));
        return exchanges;

        void AddDecoding(string hex) => exchanges.Add(new(index, Command('D', index, [hex]), host.Decode(Convert.FromHexString(hex))));

        void AddSpoilt(byte[] packet, int round)
        {
            AddDecoding(Convert.ToHexString([.. packet, 0]));
            coverage.Add("refused", "length on air");
            if (packet.Length > 1)
                AddDecoding(Convert.ToHexString(packet.AsSpan(0, packet.Length - 1)));
            var constants = payload.Layout().Where(placed => placed.Field.Constant is not null).ToList();
            if (constants.Count == 0)
                return;
            var at = constants[round % constants.Count];
            packet[at.Offset + (round % at.Field.Size)] ^= 0x40;
            Assert.Equal("refused", host.Decode(packet));
            AddDecoding(Convert.ToHexString(packet));
            coverage.Add("refused", "constant on air");
        }
    }

    // A double holds whole numbers up to 2^53, so a greater count may come back as its neighbour; and it makes a signalling NaN a quiet one.
    private static bool CanRemake(Payload payload, List<string> words) =>
        payload.Fields.All(field => field.Constant is not null || (field.Scale == 1 && field.Unit is null) || (field.Kind is FieldKind.Integer ? field.ItemSize < 8 : field.Scale == 1))
        && words.Count > 0;

    private static string Command(char kind, int index, IEnumerable<string> words) => string.Create(CultureInfo.InvariantCulture, $"{kind} {index} {string.Join(' ', words)}");

    private static string Definition(Payload payload) => $"{payload.Name}: {payload.Place.Text}";

    private static (Network Network, string Text) Drawn(int batch, int count, bool isFixed)
    {
        // Drawn one by one, so that what no packet holds is left out before the manifest is whole.
        var draw = new PayloadDraw(batch);
        var payloads = new List<string>();
        while (payloads.Count < count)
        {
            var definition = draw.Next((payloads.Count % 32) + 1);
            if (Manifest([definition], isFixed) is var trial && Read(trial) is { } read && !PayloadFaults.Of(read.Payloads[0], isFixed ? 32 : read.Payloads[0].Size).Any())
                payloads.Add(definition);
        }
        var text = Manifest(payloads, isFixed);
        return (Read(text)!, text);
    }

    private static Network? Read(string text)
    {
        var result = Linter.Check(new SourceText("field.radio.yaml", text));
        return result.Findings.Any(finding => finding.Severity is Severity.Error) ? null : result.Network;
    }

    private static string Manifest(List<string> payloads, bool isFixed)
    {
        var all = Enumerable.Range(0, payloads.Count);
        return string.Create(CultureInfo.InvariantCulture, $$"""
            radiolint: 1
            network: field
            region: GB
            air: { channel: 74, rate: 1 Mbps, payload-length: {{(isFixed ? "32 bytes" : "dynamic")}} }
            all-nodes: { wires: 5 cm, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic } }
            nodes:
              hub: { board: atmega2560, pins: { ce: D48, csn: D49 } }
              far: { board: atmega328p, pins: { ce: D9, csn: D10 } }
            rules: { RL6101: silent, RL6202: silent }
            links:
            {{string.Concat(all.Select(i => $"  - {{ from: far, to: hub, payload: p-{i}, every: 1 min, address: 0xC2A7D19B33, pipe: 1 }}\n"))}}
            payloads:
            {{string.Concat(all.Select(i => $"  p-{i}: {payloads[i]}\n"))}}
            """);
    }
}
