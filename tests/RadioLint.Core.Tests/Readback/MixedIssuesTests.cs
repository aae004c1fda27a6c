using System.Text;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Readback;
using RadioLint.Rules.Observed;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Readback;

/// <summary>Which nodes of a large network are named when some run another plan, and which comes first.</summary>
public sealed class MixedIssuesTests
{
    private static readonly Dictionary<string, Node> Nodes = Linter.Check("large.radio.yaml", Encoding.UTF8.GetBytes("""
        radiolint: 1
        network: large
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        nodes:
          hall: { board: atmega328p, pins: { ce: D9, csn: D10 } }
          hive: { each: 1..14, board: atmega328p, pins: { ce: D9, csn: D10 } }
        """), new()).Network!.Nodes.ToDictionary(node => node.Name);

    [Fact]
    public void The_first_line_of_the_log_comes_first()
    {
        var finding = Of([("hive-2", 5, false), ("hive-10", 3, false), ("hive-1", 9, false), ("hall", 1, true)])!;
        Assert.Equal(3, finding.Place.From.Line);
        Assert.Equal("of 4 nodes 3 still run another plan: `hive-1`, `hive-2`, `hive-10`; on the present one is `hall`", finding.Message);
        Assert.Equal("flash `hive-1`, `hive-2`, `hive-10` next; where the fingerprint differs as well, nodes of the two plans do not hear each other meanwhile", finding.Help);
        Assert.Equal(["hive-2", "hive-10", "hive-1"], finding.NodeNames);
    }

    [Fact]
    public void Twelve_are_named_and_the_rest_is_counted()
    {
        var twelve = string.Join(", ", Enumerable.Range(1, 12).Select(number => $"`hive-{number}`"));
        Assert.Equal($"of 13 nodes 1 still runs another plan: `hall`; on the present one are {twelve}", Said(12));
        Assert.Equal($"of 14 nodes 1 still runs another plan: `hall`; on the present one are {twelve} and 1 more", Said(13));

        static string Said(int count) => Of([("hall", 1, false), .. Enumerable.Range(1, count).Select(number => ($"hive-{number}", number + 1, true))])!.Message;
    }

    [Fact]
    public void All_alike_are_not_mixed()
    {
        Assert.Null(Of([("hall", 1, true), ("hive-1", 2, true)]));
        Assert.Null(Of([("hall", 1, false), ("hive-1", 2, false)]));
    }

    // Each line of a log is a text of its own, which knows its number.
    private static Finding? Of(IEnumerable<(string Name, int Line, bool IsPresent)> told) => MixedIssues.Of(
        [.. told.Select(one => (Nodes[one.Name], new BootReport("E6634F9D", "01234567", new Place(new SourceText("large.log", "rl1 boot", one.Line), 0, 3)), one.IsPresent))]);
}
