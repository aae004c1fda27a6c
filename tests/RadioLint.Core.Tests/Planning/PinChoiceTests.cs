using System.Globalization;
using System.Text;
using CsCheck;
using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Rules.Wiring;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>Pins that are chosen give the rules on wiring nothing to say, on every shipped board and whatever else is on it.</summary>
public sealed class PinChoiceTests
{
    private const int EachBoard = 150;

    public static TheoryData<string> Boards() => [.. ShippedBoards.Names];

    [Fact]
    public void There_are_eighteen_microcontrollers() => Assert.True(ShippedBoards.Names.Length >= 18);

    [Theory, MemberData(nameof(Boards))]
    public void No_rule_on_wiring_complains(string name)
    {
        var board = ShippedBoards.Find(name)!;
        var dice = new PCG(1, (ulong)name.Sum(c => c) + 1);
        var (chosen, wanted) = (0, 0);
        for (var i = 0; i < EachBoard; i++)
        {
            var text = Manifest(board, dice, i == 0);
            var network = Read(text).Network!;
            var (choices, missing) = PinChoices.Of(network);
            var filled = ManifestWriter.Write(network, choices);
            Assert.Empty(filled.Left);
            var result = Read(filled.Text);
            var found = result.Findings;
            var places = result.Network!.Nodes.SelectMany(node => node.Wiring.Lines())
                .Where(line => choices.Any(choice => choice.Key == $"pins.{line.Signal}")).Select(line => line.Place).ToList();
            chosen += choices.Length;
            wanted += choices.Length + missing.Length;
            var complaints = found.Where(finding => !(finding.Rule.Id == "RL1011" && IsOutOfReach(network.Nodes[0])) && finding.Severity > Severity.Info && finding.Rule.Id.StartsWith("RL1", StringComparison.Ordinal)
                && (finding.Rule.Id is "RL1001" or "RL1016" ? missing.IsEmpty : places.Any(place => Touches(finding, place)))).ToList();
            Assert.True(complaints.Count == 0, $"{string.Join("\n", complaints.Select(one => $"{one.Rule.Id} {one.Message}"))}\n{filled.Text}");
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {chosen} of {wanted} lines find a pin"));
        // All that the SPI leaves of its pins carries a caution.
        Assert.Equal(name != "attiny85", chosen * 2 > wanted);
    }

    [Theory]
    [InlineData("atmega328p", "D9", "D10", "D2")]
    [InlineData("esp32", "GPIO27", "GPIO13", "GPIO4")]
    [InlineData("stm32f103", "B0", "A4", "B1")]
    public void An_empty_board_gets_the_usual_pins(string name, string ce, string csn, string irq)
    {
        var network = Read($"radiolint: 1\nnetwork: x\nnodes: {{ a: {{ board: {name}, service: {{ by: interrupt }} }} }}\n").Network!;
        Assert.Equal([ce, csn, irq], PinChoices.Of(network).Choices.Select(choice => choice.Value));
    }

    [Fact]
    public void Somebody_elses_node_is_left_alone() => Assert.Empty(PinChoices.Of(Read("radiolint: 1\nnetwork: x\nnodes: { a: { board: esp32, external: true } }\n").Network!).Choices);

    [Fact]
    public void A_full_board_is_told()
    {
        var uses = string.Join(", ", ShippedBoards.Find("attiny85")!.Pins.Select(pin => $"{pin.Port}: lamp"));
        var (choices, missing) = PinChoices.Of(Read($"radiolint: 1\nnetwork: x\nnodes: {{ a: {{ board: attiny85, also-uses: {{ {uses} }} }} }}\n").Network!);
        Assert.Empty(choices);
        Assert.Equal(["csn", "ce"], missing.Select(line => line.Split('`')[3]));
    }

    // A select input of the SPI that no line of the radio can take is for the program to make an output, whatever pins are chosen.
    private static bool IsOutOfReach(Node node) => SpiLines.WatchedSelect(node) is { } ss
        && (!FreePins.Unreserved(node, "csn").Contains(ss) || node.Sleep?.Wakes?.Value.Pin is { } wakes && node.Board!.Find(wakes) == ss
            || node.AlsoUses.Any(use => use.Use.StartsWith("PWM", StringComparison.Ordinal) && UnitPins.Of(node.Board!, use.Name.Text).Ports.Contains(ss.Port)));

    private static bool Touches(Finding finding, Place place) =>
        finding.Place.Contains(place) || place.Contains(finding.Place) || finding.Related.Any(other => place.Contains(other.Place) || other.Place == place);

    private static string Manifest(Board board, PCG dice, bool isBare)
    {
        var uses = new List<string>();
        var pins = board.Pins.Where(pin => board.Find(pin.Label) == pin).ToList();
        for (var n = isBare ? 0 : dice.Next((uint)(pins.Count + 3) / 2); n > 0; n--)
        {
            var pin = pins[(int)dice.Next((uint)pins.Count)];
            uses.Add(dice.Next(4) switch { 0 => $"{pin.Label}: {{ use: button interrupt, direction: input }}", 1 => $"{pin.Label}: {{ use: lamp, direction: output }}", _ => $"{pin.Label}: something" });
        }
        string[] units = ["Timer1", "Timer2", "USART0", "USART1", "UART1", "I2C", "TWI", "TIM2"];
        if (!isBare && dice.Next(3) == 0)
            uses.Add($"{units[dice.Next((uint)units.Length)]}: {(dice.Next(2) == 0 ? "PWM of a fan" : "servo")}");
        var text = new StringBuilder("radiolint: 1\nnetwork: x\nregion: GB\nair: { channel: 74 }\nnodes:\n  a:\n");
        text.Append(CultureInfo.InvariantCulture, $"    board: {board.Name}\n");
        var given = new[] { ("ce", board.Wiring?.Ce), ("csn", board.Wiring?.Csn), ("irq", board.Wiring?.Irq) }.Where(one => one.Item2 is not null && !isBare && dice.Next(4) == 0).Select(one => $"{one.Item1}: {one.Item2}").ToList();
        if (given.Count > 0)
            text.Append(CultureInfo.InvariantCulture, $"    pins: {{ {string.Join(", ", given)} }}\n");
        if (uses.Count > 0)
            text.Append(CultureInfo.InvariantCulture, $"    also-uses: {{ {string.Join(", ", uses.DistinctBy(use => use.Split(':')[0]))} }}\n");
        if (!isBare && dice.Next(3) == 0)
            text.Append(CultureInfo.InvariantCulture, $"    shares-spi: [ {{ part: SD card, select: {pins[(int)dice.Next((uint)pins.Count)].Label} }} ]\n");
        if (!isBare && dice.Next(4) == 0)
            text.Append(CultureInfo.InvariantCulture, $"    sleep: {{ wakes: by pin {pins[(int)dice.Next((uint)pins.Count)].Label} }}\n");
        text.Append(isBare || dice.Next(2) == 0 ? "    service: { by: interrupt }\n" : "");
        return text.ToString();
    }

    private static CheckResult Read(string text) => Linter.Check(new SourceText("x.radio.yaml", text));
}
