using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Rules.Wiring;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>
/// A board round one of the AVR parts that avr-gcc 5.4 and the ready-made hooks know: how its SPI, serial port and timer are set up. Register
/// names and bits are those of avr/io.h; all of these parts have them alike.
/// </summary>
public sealed record AvrBoard(string Mcu, string Serial, string Vector, long Hertz)
{
    private static readonly (string Chip, string Mcu, string Serial, string Vector)[] Known =
    [
        ("ATmega168", "atmega168", "0", "USART_RX_vect"),
        ("ATmega328P", "atmega328p", "0", "USART_RX_vect"),
        ("ATmega1284P", "atmega1284p", "0", "USART0_RX_vect"),
        ("ATmega2560", "atmega2560", "0", "USART0_RX_vect"),
        ("ATmega32U4", "atmega32u4", "1", "USART1_RX_vect"),
    ];

    // SPR1:0 and SPI2X by divider (ATmega328/P data sheet 42735A, Table 23-5).
    private static readonly (int Divider, int Rate, int Double)[] Rates = [(2, 0, 1), (4, 0, 0), (8, 1, 1), (16, 1, 0), (32, 2, 1), (64, 2, 0), (128, 3, 0)];

    /// <summary>SCK is the board's clock by this.</summary>
    public required int SpiDivider { get; init; }

    public required bool HasCe { get; init; }

    /// <summary>Lines of C that make outputs of pins which are not the radio's: the chip's own select, selects of others on the bus.</summary>
    public required ImmutableArray<string> Outputs { get; init; }

    public required SerialSpeed Speed { get; init; }

    /// <summary>The board, or why there are no ready-made hooks for the node; the text is safe in quotes of a shell.</summary>
    public static (AvrBoard? Board, string? Refusal) Of(Node node)
    {
        var (board, wiring) = (node.Board!, node.Wiring);
        var known = Array.Find(Known, one => one.Chip == board.Chip);
        if (known.Mcu is null)
            return (null, $"no compiler and no hooks here for {Plain(board.Chip.Length == 0 ? board.Name : board.Chip)}: build its programs with its own tools and the hooks of docs/firmware.md");
        if (board.Clock?.Value is not { Hertz: > 0 and var hertz } || wiring.Clock is not { } spi)
            return (null, "the clock of its board is not stated, so that no wait and no serial speed can be counted");
        if (wiring.IsSoftware || wiring.Unit?.Name != "SPI")
            return (null, "the ready-made hooks use the SPI unit of the chip, and its radio is on other pins");
        if (wiring.Csn is not { Tie: PinTie.None, Pin: not null } || wiring.Ce is { Tie: PinTie.FromSck })
            return (null, "the ready-made hooks need CSN on a pin of its own, and CE on one or tied high");
        if (Array.Find(Rates, one => one.Divider * spi.Hertz == hertz) is not { Divider: > 0 } rate)
            return (null, "its SPI clock is no step of the clock of its board");
        if (wiring.Lines().FirstOrDefault(line => line.Pin is { } pin && IsSerial(pin, known.Serial)) is { } taken)
            return (null, string.Create(CultureInfo.InvariantCulture, $"its radio has {taken.Signal} on a pin of serial port {known.Serial}, where the programs speak"));
        if (SerialSpeed.Of(node.Host, hertz) is not { } speed)
            return (null, "its serial speed is more than 3 % off at the clock of its board");
        return (new(known.Mcu, known.Serial, known.Vector, hertz)
        {
            SpiDivider = rate.Divider,
            HasCe = wiring.Ce is { Tie: PinTie.None, Pin: not null },
            Outputs = [.. OutputsOf(node)],
            Speed = speed,
        }, null);
    }

    public ScriptObject ToScript()
    {
        var rate = Array.Find(Rates, one => one.Divider == SpiDivider);
        var megahertz = (Hertz + 999_999) / 1_000_000;
        // Timer 1 has 16 bits: the finer divider where a second fits.
        var timer = Hertz / 256 <= 65_536 ? 256 : 1024;
        return new()
        {
            ["mcu"] = Mcu,
            ["clock"] = $"{Number(Hertz)}uL",
            ["megahertz"] = C.Unsigned((ulong)megahertz),
            ["rounds_500"] = C.Unsigned((ulong)(500 * megahertz / 4)),
            ["has_ce"] = HasCe,
            ["outputs"] = Script.List(Outputs, line => line),
            ["spi_divider"] = SpiDivider,
            ["spi_rate"] = rate.Rate switch { 0 => "", 1 => " | (1u << SPR0)", 2 => " | (1u << SPR1)", _ => " | (1u << SPR1) | (1u << SPR0)" },
            ["spi_double"] = rate.Double == 1 ? "(1u << SPI2X)" : "0u",
            ["spi_words"] = $"{new Units.Frequency(Hertz / SpiDivider)}, the board's clock by {Number(SpiDivider)}",
            ["serial"] = Serial,
            ["vector"] = Vector,
            ["ubrr"] = C.Unsigned((ulong)Speed.Divider - 1),
            ["baud_words"] = Speed.InWords(),
            ["second_last"] = C.Unsigned((ulong)((Hertz + timer / 2) / timer - 1)),
            ["second_clock"] = timer == 256 ? "(1u << CS12)" : "(1u << CS12) | (1u << CS10)",
        };
    }

    // SS as an input that goes low ends master mode; who else is on the bus must be deselected (RL1011, RL1202).
    private static IEnumerable<string> OutputsOf(Node node)
    {
        var radio = node.Wiring.Lines().Select(line => line.Pin?.Port).ToHashSet(StringComparer.Ordinal);
        var others = node.SharesSpi.Select(other => other.Select?.Pin is { } pin ? node.Board!.Find(pin.Value) : null).OfType<BoardPin>().ToList();
        foreach (var pin in others.Where(pin => !radio.Contains(pin.Port) && IsPort(pin)))
        {
            yield return $"PORT{pin.Port[1]} |= (uint8_t)(1u << {pin.Port[2]}u); /* {C.InComment(pin.Both)} deselects another device on the bus */";
            yield return $"DDR{pin.Port[1]} |= (uint8_t)(1u << {pin.Port[2]}u);";
        }
        if (SpiLines.WatchedSelect(node) is { } ss && IsPort(ss) && !radio.Contains(ss.Port) && others.TrueForAll(pin => pin.Port != ss.Port)
            && !node.AlsoUses.Any(use => use.IsInput?.Value == true && node.Board!.Find(use.Name.Text)?.Port == ss.Port))
        {
            yield return $"DDR{ss.Port[1]} |= (uint8_t)(1u << {ss.Port[2]}u); /* SS, {C.InComment(ss.Both)}: as a low input it would end master mode */";
        }
    }

    private static bool IsPort(BoardPin pin) => pin.Port is ['P', >= 'A' and <= 'L', >= '0' and <= '7'];

    private static bool IsSerial(BoardPin pin, string port) => pin.Functions.Contains($"USART{port}.RXD") || pin.Functions.Contains($"USART{port}.TXD");

    private static string Plain(string text) => string.Concat(text.Where(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '-' or '.' or '_'));

    private static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);
}
