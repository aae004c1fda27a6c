using System.Globalization;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>What the table and its walker cost on an ATmega328P, counted in the object file.</summary>
public sealed class FlashBudget : IDisposable
{
    // Own budgets, for a plain sender: design figures, no source.
    private const int FlashBytes = 125;
    private const int SpiBytes = 38;

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Table_and_walker_of_a_plain_sender_stay_inside_the_budget()
    {
        var sections = await Sections("void walk(void);\nvoid walk(void) { radio_walk_frames(hive_1_frames); }\n");
        var (table, code) = (sections.GetValueOrDefault(".progmem.data"), sections.GetValueOrDefault(".text"));
        Assert.Equal(52, table);
        Assert.InRange(code, 1, FlashBytes - table);
        Assert.Equal(0, sections.GetValueOrDefault(".data") + sections.GetValueOrDefault(".bss") + sections.GetValueOrDefault(".rodata"));
        TestContext.Current.SendDiagnosticMessage($"table {table} + walker {code} bytes");
    }

    [Fact]
    public async Task A_table_outside_flash_would_be_seen()
    {
        var sections = await Sections("void walk(void);\nvoid walk(void) { radio_walk_frames(hive_1_frames); }\n", "-DRADIO_TABLE=", "-DRADIO_READ(place)=(*(place))");
        Assert.Equal(52, sections.GetValueOrDefault(".data") + sections.GetValueOrDefault(".rodata"));
    }

    [Fact]
    public void A_plain_sender_sends_no_byte_too_many()
    {
        var network = Emitted.Network(Emitted.Apiary);
        var hive = network.Plan.Of(network.Nodes.Single(node => node.Name == "hive-1")).Image!;
        Assert.Equal(36, hive.Frames.Sum(frame => frame.Bytes.Length));
        Assert.InRange(hive.Frames.Sum(frame => frame.Bytes.Length), 1, SpiBytes);
    }

    private async Task<Dictionary<string, int>> Sections(string use, params string[] defines)
    {
        shop.WriteAll(Emitted.Everything);
        shop.Write("walk.c", "#include \"hive_1_radio.h\"\n" + use);
        await shop.MustRun("avr-gcc", ["-mmcu=atmega328p", "-Os", "-std=c99", "-ffreestanding", "-I.", .. defines, "-c", "walk.c", "-o", "walk.o"]);
        return (await shop.MustRun("avr-size", "-A", "walk.o")).Split('\n')
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Where(words => words is [['.', ..], _, ..])
            .ToDictionary(words => words[0], words => int.Parse(words[1], CultureInfo.InvariantCulture), StringComparer.Ordinal);
    }
}
