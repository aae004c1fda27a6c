using System.Globalization;
using System.Text.RegularExpressions;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>The figures of docs/performance.md on flash and RAM are those of today's headers and programs.</summary>
public sealed class FirmwareCosts : IDisposable
{
    private static readonly string Page = File.ReadAllText(Path.Combine(Emitted.Root, "docs", "performance.md"));

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    // Parts of the layer, by what a program calls; the struct is the program's, and counted.
    [Theory]
    [InlineData("table and walker", "hive_1", "void f(void); void f(void) { radio_walk_frames(hive_1_frames); }")]
    [InlineData("link layer unused", "hive_1", "extern int nothing;")]
    [InlineData("start", "hive_1", Link + "uint8_t f(void); uint8_t f(void) { return hive_1_link_start(&link); }")]
    [InlineData("start, send", "hive_1", Link + Sender + "uint8_t g(void); uint8_t g(void) { return hive_1_link_start(&link); }")]
    [InlineData("a sleeping sender", "hive_1", Link + Sender + "uint8_t g(struct radio_packet *p); uint8_t g(struct radio_packet *p) { radio_link_rest(&link); (void)radio_link_wake(&link); (void)radio_link_watch(&link); (void)hive_1_link_start(&link); return radio_link_fetch(&link, p); }")]
    [InlineData("a listener", "shed", Link + "uint8_t f(struct radio_packet *p); uint8_t f(struct radio_packet *p) { (void)shed_link_start(&link); (void)radio_link_listen(&link); (void)radio_link_watch(&link); return radio_link_fetch(&link, p); }")]
    [InlineData("with answers", "shed", Link + "uint8_t f(struct radio_packet *p, const uint8_t *b); uint8_t f(struct radio_packet *p, const uint8_t *b) { (void)shed_link_start(&link); (void)radio_link_listen(&link); (void)radio_link_watch(&link); (void)shed_answer_hive_1_order(&link, b); return radio_link_fetch(&link, p); }")]
    public async Task Of_headers(string row, string node, string use)
    {
        shop.WriteAll(Emitted.Everything);
        shop.Write("use.c", $"#include \"{node}_radio.h\"\n{use}\n");
        var (avrFlash, avrRam) = await Object("avr-gcc", ["-mmcu=atmega328p"], "use.c");
        var (armFlash, armRam) = await Object("arm-none-eabi-gcc", ["-mcpu=cortex-m0plus", "-mthumb"], "use.c");
        Assert.Equal([avrFlash, avrRam, armFlash, armRam], Cells(row));
    }

    [Theory]
    [InlineData("bring-up", "hive_1_bringup", "weather_bringup", "")]
    [InlineData("try", "hive_1_try", "weather_bringup", "-DRADIO_TRY")]
    [InlineData("survey", "hive_1_survey", "weather_survey", "")]
    [InlineData("gateway", "bench_gateway", "shed_gateway", "")]
    public async Task Of_programs(string row, string onAvr, string onArm, string flag)
    {
        shop.WriteAll(Emitted.WithPrograms(Emitted.Bench));
        shop.WriteAll(Emitted.WithPrograms(onAvr.StartsWith("bench", StringComparison.Ordinal) ? Emitted.Bench : Emitted.Apiary));
        await shop.MustRun("make", "-s", onAvr + ".elf");
        var sizes = await shop.MustRun("avr-size", "-A", onAvr + ".elf");
        shop.WriteAll(Emitted.WithPrograms(Emitted.Apiary));
        string[] flags = ["-mcpu=cortex-m0plus", "-mthumb", .. flag.Length > 0 ? [flag] : Array.Empty<string>()];
        var (armFlash, armRam) = await Object("arm-none-eabi-gcc", flags, onArm + ".c");
        // On AVR initialised data lie in both.
        Assert.Equal([Sum(sizes, @"\.text|\.data"), Sum(sizes, @"\.data|\.bss|\.noinit"), armFlash, armRam], Cells(row));
    }

    private const string Link = "static struct radio_link link; ";

    private const string Sender = "uint8_t f(const uint8_t *b); uint8_t f(const uint8_t *b) { return hive_1_send_shed_reading(&link, b); } ";

    private async Task<(int Flash, int Ram)> Object(string compiler, IEnumerable<string> flags, string file)
    {
        await shop.MustRun(compiler, [.. flags, "-Os", "-std=c99", "-ffreestanding", "-I.", "-c", file, "-o", "use.o"]);
        var sizes = await shop.MustRun(compiler.Replace("-gcc", "-size", StringComparison.Ordinal), "-A", "use.o");
        return (Sum(sizes, @"\.text|\.progmem|\.rodata"), Sum(sizes, @"\.data|\.bss"));
    }

    private static int[] Cells(string row) =>
        [.. Page.Split('\n').Single(line => line.StartsWith($"| {row} |", StringComparison.Ordinal)).Split('|')[3..7].Select(cell => int.Parse(cell.Trim(), CultureInfo.InvariantCulture))];

    private static int Sum(string sizes, string sections) =>
        Regex.Matches(sizes, $@"^(?:{sections})\S*\s+(\d+)", RegexOptions.Multiline).Sum(match => int.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture));
}
