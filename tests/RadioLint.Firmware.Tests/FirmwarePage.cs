using System.Text.RegularExpressions;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>The program on docs/firmware.md builds, and its figures are those of today's headers.</summary>
public sealed class FirmwarePage : IDisposable
{
    private static readonly string Page = File.ReadAllText(Path.Combine(Emitted.Root, "docs", "firmware.md"));

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Its_program_builds()
    {
        shop.WriteAll(Emitted.WithPrograms(Emitted.Apiary));
        shop.Write("hive.c", Regex.Match(Page, "```c\n(.*?)```", RegexOptions.Singleline).Groups[1].Value);
        await shop.MustRun("avr-gcc", "-mmcu=atmega328p", "-Os", "-std=c99", "-Wall", "-Wextra", "-Werror", "-I.", "hive.c", "-o", "hive.elf");
        Assert.Contains(".text", await shop.MustRun("avr-size", "-A", "hive.elf"), StringComparison.Ordinal);
    }

    // Columns of the page's table: table and walker, table and configure, verify alone, encode and decode.
    [Theory]
    [InlineData("avr-gcc", "-mmcu=atmega328p", 1)]
    [InlineData("arm-none-eabi-gcc", "-mcpu=cortex-m0plus -mthumb", 2)]
    [InlineData("riscv64-unknown-elf-gcc", "-march=rv32imac -mabi=ilp32", 3)]
    [InlineData("xtensa-lx106-elf-gcc", "", 4)]
    public async Task Its_figures_are_measured(string compiler, string target, int column)
    {
        shop.WriteAll(Emitted.Everything);
        var uses = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["walk"] = "void f(void); void f(void) { radio_walk_frames(hive_1_frames); }",
            ["configure"] = "void f(void); void f(void) { hive_1_configure(); }",
            ["verify"] = "uint8_t f(void); uint8_t f(void) { return hive_1_verify(); }",
            ["encode"] = "uint8_t f(uint8_t *b, const struct hive_1_reading *r); uint8_t f(uint8_t *b, const struct hive_1_reading *r) { return hive_1_reading_encode(b, r); }",
            ["decode"] = "uint8_t f(struct hive_1_reading *r, const uint8_t *b, uint8_t c); uint8_t f(struct hive_1_reading *r, const uint8_t *b, uint8_t c) { return hive_1_reading_decode(r, b, c); }",
        };
        var measured = new Dictionary<string, (int Code, int Table)>(StringComparer.Ordinal);
        foreach (var (name, use) in uses)
        {
            shop.Write(name + ".c", $"#include \"hive_1_radio.h\"\n{use}\n");
            await shop.MustRun(compiler, [.. target.Split(' ', StringSplitOptions.RemoveEmptyEntries), "-Os", "-std=c99", "-ffreestanding", "-I.", "-c", name + ".c", "-o", name + ".o"]);
            var sizes = await shop.MustRun(compiler.Replace("-gcc", "-size", StringComparison.Ordinal), "-A", name + ".o");
            measured[name] = (Sum(sizes, @"\.text|\.literal"), Sum(sizes, @"\.progmem|\.rodata"));
            Assert.Equal(0, Sum(sizes, @"\.data|\.bss"));
        }
        Assert.Equal($"{measured["walk"].Code + measured["walk"].Table}", Cell("table and walker", column));
        Assert.Equal($"{measured["configure"].Code + measured["configure"].Table}", Cell("table and `configure`", column));
        Assert.Equal($"{measured["verify"].Code}", Cell("`verify` alone", column));
        Assert.Equal($"{measured["encode"].Code}, {measured["decode"].Code}", Cell("`reading_encode`", column));
    }

    private static string Cell(string row, int column) =>
        Page.Split('\n').Single(line => line.StartsWith("| " + row, StringComparison.Ordinal)).Split('|')[column + 1].Trim();

    private static int Sum(string sizes, string sections) =>
        Regex.Matches(sizes, $@"^(?:{sections})\S*\s+(\d+)", RegexOptions.Multiline).Sum(match => int.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture));
}
