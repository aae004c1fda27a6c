using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Readback;
using RadioLint.Starting;
using RadioLint.Tests.Planning;
using RadioLint.Tests.Readback;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Starting;

/// <summary>From a network to images, from images to listings, from listings to a manifest: whose images are the same again.</summary>
public sealed class StartFromDumpTests
{
    private static readonly StartTerms Terms = new("again", "GB", "esp32");

    /// <summary>How programs print a register; at last senders with the high byte of an address first, which only the receivers' reports can tell.</summary>
    public static TheoryData<string> Forms => ["report", "labels", "pairs", "numbers", "mixed"];

    [Theory, MemberData(nameof(Forms))]
    public void The_examples_come_back(string form)
    {
        foreach (var file in Fixtures.Examples().Where(file => !file.Contains("mistakes", StringComparison.Ordinal)))
            Assert.Null(Fault(Read(File.ReadAllText(Path.Combine(Fixtures.Root, file)))!, form));
    }

    [Fact]
    public void Every_network_of_the_tests_comes_back()
    {
        var (networks, nodes) = (0, 0);
        var faults = new StringBuilder();
        foreach (var (name, text, _) in OpenedManifests.All())
        {
            if (Read(text) is not { Nodes.Length: > 0 and <= 12 } network || network.Plan.Nodes.Any(plan => plan.Image is null || !Names.IsWellFormed(plan.Node.Name)))
                continue;
            networks++;
            nodes += network.Nodes.Length;
            if (Fault(network, "report") is { } fault)
                faults.Append(CultureInfo.InvariantCulture, $"{name}: {fault}\n--- of\n{text}\n");
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{networks} networks, {nodes} nodes"));
        Assert.True(faults.Length == 0, faults.ToString()[..Math.Min(faults.Length, 15_000)]);
        Assert.True(networks > 500, $"{networks}");
    }

    /// <summary>What does not come back; null when all does.</summary>
    internal static string? Fault(Network network, string form)
    {
        var dumps = network.Plan.Nodes.ToDictionary(plan => plan.Node.Name, Held);
        var started = StartFromDump.Of(dumps.Select(dump => (dump.Key, Listed(dump.Key, dump.Value, form == "mixed" && dump.Value[Registers.Config][0] % 2 == 1 ? "report" : form))), Terms)!;
        var result = Linter.Check(new SourceText("again.radio.yaml", started.Text));
        if (result.Network is not { } again || result.Findings.FirstOrDefault(finding => finding.Severity is Severity.Error && finding.Rule.Id.StartsWith("RL80", StringComparison.Ordinal)) is not null)
            return $"it does not read: {string.Join("; ", result.Findings.Where(finding => finding.Severity is Severity.Error).Select(finding => finding.Message))}\n{started.Text}";
        foreach (var (name, held) in dumps)
        {
            var image = again.Plan.Of(again.Nodes.Single(node => node.Name == name)).Image;
            if (image is null)
                return $"{name} has no image\n{started.Text}";
            foreach (var frame in image.Frames.Where(frame => frame.Register is not null and not Registers.Status))
            {
                if (!image[frame.Register!.Value]!.Value.SequenceEqual(held[frame.Register.Value].Take(frame.Data.Length)))
                    return $"{frame.Name} of {name} is {Convert.ToHexString([.. image[frame.Register!.Value]!.Value])}, not {Convert.ToHexString(held[frame.Register.Value])}\n{started.Text}";
            }
        }
        return started.Remarks.IsEmpty ? null : $"{started.Remarks[0]}\n{started.Text}";
    }

    // Power-on values where the plan writes nothing (nRF24L01+ Product Specification 1.0, Table 28).
    private static SortedDictionary<byte, byte[]> Held(NodePlan plan)
    {
        var registers = new SortedDictionary<byte, byte[]>();
        foreach (var row in Published.Rows("radio-registers.csv").Where(row => row["part"] == "nRF24L01+" && row["field"].Length == 0 && row["reset"].StartsWith("0x", StringComparison.Ordinal)))
            registers[Logs.Hex(row["address"])[0]] = [.. Logs.Hex(row["reset"]).Reverse()];
        foreach (var frame in plan.Image!.Frames.Where(frame => frame.Register is not null and not Registers.Status))
            registers[frame.Register!.Value] = [.. frame.Data];
        return registers;
    }

    private static Listing Listed(string name, SortedDictionary<byte, byte[]> registers, string form)
    {
        string Bytes(byte[] bytes, string between) => string.Join(between, bytes.Select(one => one.ToString("X2", CultureInfo.InvariantCulture)));
        string Number(byte[] bytes) => "0x" + Convert.ToHexString([.. bytes.Reverse()]);
        string Lines(Func<byte, byte[], string> line) => string.Join('\n', registers.Select(one => line(one.Key, one.Value))) + "\n";
        var text = form switch
        {
            "report" => Logs.Listing(name, registers),
            "labels" => Lines((address, bytes) => $"{RegisterMap.NameOf(address)} = {(bytes.Length > 1 ? Number(bytes) : "0x" + Bytes(bytes, ""))}"),
            "pairs" => Lines((address, bytes) => $"{address:X2}: {Bytes(bytes, " ")}"),
            "numbers" => string.Join(' ', registers.Select(one => Number(one.Value))),
            _ => Lines((address, bytes) => $"{RegisterMap.NameOf(address)}: {Bytes([.. bytes.Reverse()], " ")}"),
        };
        return Assert.Single(Logs.Read("a.log", text).Nodes).Last ?? throw new InvalidOperationException($"{name}: nothing is read of\n{text}");
    }

    private static Network? Read(string text)
    {
        var read = Linter.Open("x.radio.yaml", Encoding.UTF8.GetBytes(text), new());
        return read.Findings.Any(finding => finding.Severity is Severity.Error) ? null : read.Network;
    }
}
