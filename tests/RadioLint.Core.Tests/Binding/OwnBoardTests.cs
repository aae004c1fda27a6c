using System.Text;
using RadioLint.Binding;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Binding;

/// <summary>Boards of the user's own, from scratch and on a shipped one; the shipped ones by the same table.</summary>
public sealed class OwnBoardTests
{
    private const string Head = "radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\n";

    [Fact]
    public void A_board_from_scratch_needs_no_code()
    {
        var node = Check("""
            nodes:
              hall: { board: my-board, pins: { ce: X1, csn: X2 } }
            boards:
              my-board:
                chip: CHIP1
                clock: 12 MHz
                logic: 3.3 V
                supply: { range: 1.8..3.6 V }
                levels: { high: 0.7 x supply }
                pins:
                  P1: { labels: [X1], can: [in, out] }
                  P2: { labels: [X2], can: [in, out] }
                  P3: { can: [in, out] }
                  P4: { can: [in, out] }
                  P5: { can: [in, out] }
                spi:
                  SPI0: { kind: fixed, sets: [ { sck: P3, mosi: P4, miso: P5 } ], dividers: [2, 4, 8] }
                wiring: { spi: SPI0, sck: P3, mosi: P4, miso: P5, csn: P2, ce: P1 }
            """).Network!.Nodes[0];
        Assert.Equal("P1", node.Wiring.Ce!.Pin!.Port);
        Assert.Equal("SPI0", node.Wiring.Unit!.Name);
        // 12 MHz by the least divider that stays at or below 4 MHz.
        Assert.Equal(Frequency.FromMegahertz(3), node.Wiring.Clock);
        Assert.Equal(new Voltage(2310), node.Board!.HighFrom!.Value.At(new(3300)));
    }

    [Fact]
    public void A_board_on_a_shipped_one_keeps_the_rest_and_may_change_a_pin()
    {
        var board = Check("""
            nodes:
              hall: { board: shed-board, pins: { ce: D9, csn: SEL } }
            boards:
              middle: { based-on: atmega328p, clock: 8 MHz, reserved: { D3: buzzer } }
              shed-board: { based-on: middle, logic: 3.3 V, pins: { PB2: { labels: [SEL], can: [in, out] } } }
            """).Network!.Nodes[0].Board!;
        Assert.Equal(Frequency.FromMegahertz(8), board.Clock!.Value);
        Assert.Equal(new Voltage(3300), board.Logic!.Value);
        Assert.Equal("PB2", board.Find("SEL")!.Port);
        Assert.Null(board.Find("D10"));
        Assert.Equal("PB1", board.Find("D9")!.Port);
        Assert.Equal("D3", Assert.Single(board.Reserved).Pin.Text);
    }

    [Fact]
    public void Boards_that_are_based_on_each_other_are_a_finding() => Assert.Contains(
        Check("nodes:\n  hall: { board: a }\nboards:\n  a: { based-on: b }\n  b: { based-on: a }\n").Findings,
        finding => finding.Rule.Id == "RL8011" && finding.Message.Contains("based on itself", StringComparison.Ordinal));

    [Fact]
    public void An_unknown_board_comes_with_the_nearest() => Assert.Contains(
        Check("nodes:\n  hall: { board: atmega32p }\n").Findings,
        finding => finding.Rule.Id == "RL8011" && finding.Help.Contains("`atmega328p`", StringComparison.Ordinal));

    [Fact]
    public void Included_files_bring_boards_and_payloads()
    {
        var files = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["parts/boards.yaml"] = "boards:\n  my-board: { based-on: esp32 }\ninclude: parts/payloads.yaml\n",
            ["parts/payloads.yaml"] = "payloads:\n  reading: { count: uint8 }\ninclude: parts/boards.yaml\n",
        };
        var result = Linter.Check(
            new SourceText("site/net.radio.yaml", Head + "include: [parts/boards.yaml, ../out.yaml, missing.yaml]\nnodes:\n  hall: { board: my-board }\n  far: { board: esp32 }\nlinks: [ { from: far, to: hall, payload: reading } ]\n"),
            new() { Include = name => files.TryGetValue(name, out var text) ? Encoding.UTF8.GetBytes(text) : null });
        Assert.Equal("reading", result.Network!.Links[0].Payload!.Name);
        var faults = result.Findings.Where(finding => finding.Rule.Id == "RL8008").ToList();
        Assert.Equal(3, faults.Count);
        // The circle is told in the file that closes it.
        Assert.Contains(faults, finding => finding.Place.Source.Name == "site/parts/payloads.yaml");
    }

    public static TheoryData<string> Shipped() => [.. ShippedBoards.Names];

    [Theory, MemberData(nameof(Shipped))]
    public void Shipped_profiles_read_by_the_users_table_and_name_only_pins_that_they_have(string name)
    {
        var board = ShippedBoards.Find(name)!;
        Assert.Equal(name, board.Name);
        Assert.NotEmpty(board.Chip);
        Assert.True(board.Clock is not null && board.Logic is not null && board.SupplyRange is not null && board.HighFrom is not null && board.Irq is not null);
        var ports = board.Pins.Select(pin => pin.Port).ToHashSet(StringComparer.Ordinal);
        Assert.Equal(board.Pins.Length, ports.Count);
        Assert.All(board.Units.SelectMany(unit => unit.Sets).SelectMany(set => new[] { set.Sck, set.Mosi, set.Miso, set.Ss ?? set.Sck }), port => Assert.Contains(port, ports));
        Assert.All(board.Irq!.FallingEdge.Concat(board.Irq.PinChange), port => Assert.Contains(port, ports));
        var wiring = board.Wiring!;
        Assert.All(new[] { wiring.Sck, wiring.Mosi, wiring.Miso, wiring.Csn, wiring.Ce, wiring.Irq ?? wiring.Ce }, port => Assert.Contains(port, ports));
        Assert.NotNull(board.Unit(wiring.Spi));
        // A label must lead back to its own pin.
        Assert.All(board.Pins.SelectMany(pin => pin.Labels.Select(label => (label, pin))), pair => Assert.Equal(pair.pin.Port, board.Find(pair.label)!.Port));
    }

    private static CheckResult Check(string text) => Linter.Check(new SourceText("boards.radio.yaml", Head + text));
}
