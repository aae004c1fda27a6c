using System.Globalization;
using System.Text;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Readback;
using RadioLint.Tests.Support;
using RadioLint.Text;

namespace RadioLint.Tests.Readback;

/// <summary>Networks of the tests by their nodes, and logs as nodes print them.</summary>
public static class Logs
{
    /// <summary>The digest that the plan before has in these tests.</summary>
    public const string DigestBefore = "0BEF0000";

    private static readonly string[] Files =
    [
        "docs/examples/first-pair/first-pair.radio.yaml", "docs/examples/larkfield-apiary/larkfield-apiary.radio.yaml",
        "tests/RadioLint.Core.Tests/Readback/bench.radio.yaml",
    ];

    private static readonly Dictionary<string, Network> ByFile = Files.ToDictionary(file => file, file => Read(file, text => text));

    private static readonly Dictionary<string, Network> Before = Files.ToDictionary(
        file => file, file => Read(file, text => text.Replace("channel: 74", "channel: 40", StringComparison.Ordinal).Replace("channel: 60", "channel: 40", StringComparison.Ordinal)));

    /// <summary>The network that has a node of this name.</summary>
    public static Network NetworkOf(string node) => ByFile[FileOf(node)];

    public static NodePlan PlanOf(string node) => PlanIn(NetworkOf(node), node);

    /// <summary>What was issued before: the same plan on channel 40.</summary>
    public static System.Collections.Immutable.ImmutableArray<IssuedImage> IssuedBefore(string node) =>
        [new(DigestBefore, [.. PlanIn(Before[FileOf(node)], node).Image!.Frames.Select(frame => Convert.ToHexString(frame.Bytes.AsSpan()))])];

    /// <summary>Reads a log and judges it; a listing that names nobody is the node's.</summary>
    public static (LogContent Log, Judgement Judgement) Judge(string name, string text, string node)
    {
        var network = NetworkOf(node);
        var packets = new PacketWatch(network);
        var log = Read(name, text, packets);
        if (log.Unnamed is { } unnamed)
            log = log.With([unnamed.Called(node)]);
        return (log, Judgement.Of(network, log, packets, IssuedBefore, new() { Today = new(2026, 6, 1) }));
    }

    /// <summary>Reads a log in pieces of odd sizes, as a port gives them.</summary>
    public static LogContent Read(string name, string text, PacketWatch? packets = null)
    {
        var reader = new LogReader(name, packets is null ? null : packets.Add);
        var splitter = new LineSplitter();
        for (int at = 0, size = 1; at < text.Length; at += size, size = (size * 2 + 1) % 997 + 1)
        {
            size = Math.Min(size, text.Length - at);
            foreach (var line in splitter.Add(text.Substring(at, size).ToCharArray(), size))
                reader.Add(line);
        }
        if (splitter.End() is { } last)
            reader.Add(last);
        return reader.End();
    }

    /// <summary>What the registers hold once the node has configured its radio, those that it leaves alone as after power-on (nRF24L01+ Product Specification 1.0, Table 28).</summary>
    public static SortedDictionary<byte, byte[]> Configured(string node)
    {
        var registers = new SortedDictionary<byte, byte[]>();
        foreach (var row in Published.Rows("radio-registers.csv").Where(row => row["part"] == "nRF24L01+" && row["field"].Length == 0 && row["reset"].StartsWith("0x", StringComparison.Ordinal)))
            registers[Hex(row["address"])[0]] = [.. Hex(row["reset"]).Reverse()];
        foreach (var frame in PlanOf(node).Image!.Frames.Where(frame => frame.Register is not null and not Registers.Status))
            registers[frame.Register!.Value] = [.. frame.Data];
        return registers;
    }

    /// <summary>The report lines of a listing.</summary>
    public static string Listing(string node, SortedDictionary<byte, byte[]> registers)
    {
        var text = new StringBuilder();
        foreach (var (address, bytes) in registers)
            text.Append(CultureInfo.InvariantCulture, $"{Line($"rl1 reg {node} {address:X2} {Convert.ToHexString(bytes)}")}\r\n");
        return text.Append(CultureInfo.InvariantCulture, $"{Line(FormattableString.Invariant($"rl1 end {node} {registers.Count}"))}\r\n").ToString();
    }

    /// <summary>A report with its check value, by long division of polynomials: x^8 + x^2 + x + 1, start all ones.</summary>
    public static string Line(FormattableString text) => Line(FormattableString.Invariant(text));

    public static string Line(string text)
    {
        var bits = Encoding.ASCII.GetBytes(text).SelectMany(one => Enumerable.Range(0, 8).Select(i => ((one >> (7 - i)) & 1) == 1)).Concat(new bool[8]).ToArray();
        for (var i = 0; i < 8; i++)
            bits[i] = !bits[i];
        for (var i = 0; i < bits.Length - 8; i++)
        {
            foreach (var power in bits[i] ? [0, 6, 7, 8] : Array.Empty<int>())
                bits[i + power] = !bits[i + power];
        }
        return string.Create(CultureInfo.InvariantCulture, $"{text} *{bits[^8..].Aggregate(0, (sum, bit) => (sum << 1) | (bit ? 1 : 0)):X2}");
    }

    /// <summary>Bytes of hex digits, in their order.</summary>
    public static byte[] Hex(string digits) => Convert.FromHexString(digits.Replace("0x", "", StringComparison.Ordinal));

    private static string FileOf(string node) => Files.First(file => ByFile[file].Nodes.Any(one => one.Name == node));

    private static NodePlan PlanIn(Network network, string node) => network.Plan.Of(network.Nodes.First(one => one.Name == node));

    private static Network Read(string file, Func<string, string> change) =>
        Linter.Check(new SourceText(Path.GetFileName(file), change(File.ReadAllText(Path.Combine(Fixtures.Root, file))))).Network!;
}
