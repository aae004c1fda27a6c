using System.Text.RegularExpressions;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Emitted programs build as they are: with the emitted Makefile for AVR boards, linked with hooks of other boards elsewhere.</summary>
public sealed partial class ProgramBuilds : IDisposable
{
    private const string Strict =
        "-Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wundef -Wcast-qual -Wstrict-prototypes -Wmissing-prototypes -Werror";

    // What a C library or the compiler's own would bring; the package for the lx106 has neither.
    private const string Library = """
        typedef __SIZE_TYPE__ size;
        void *memset(void *, int, size);
        void *memcpy(void *, const void *, size);
        void *memset(void *to, int value, size count) { volatile char *at = to; while (count--) *at++ = (char)value; return to; }
        void *memcpy(void *to, const void *from, size count) { volatile char *at = to; const char *it = from; while (count--) *at++ = *it++; return to; }
        #ifdef __XTENSA__
        unsigned __udivsi3(unsigned, unsigned);
        unsigned __umodsi3(unsigned, unsigned);
        unsigned __umodsi3(unsigned a, unsigned b) { while (a >= b) a -= b; return a; }
        unsigned __udivsi3(unsigned a, unsigned b) { unsigned n = 0; while (a >= b) { a -= b; ++n; } return n; }
        #endif

        """;

    private readonly Workshop shop = new();

    public static TheoryData<string> Manifests() => [Emitted.Apiary, Emitted.Bench, Emitted.Store, Emitted.Avr];

    public static TheoryData<int> Compilers() => [.. Enumerable.Range(0, Compiler.All.Count)];

    public void Dispose() => shop.Dispose();

    [Theory, MemberData(nameof(Manifests))]
    public async Task The_emitted_makefile_builds_every_program_of_its_boards(string manifest)
    {
        shop.WriteAll(Emitted.WithPrograms(manifest));
        var output = await shop.MustRun("make", "-s", $"AVR_CFLAGS=-Os -std=c99 {Strict}");
        Assert.DoesNotContain("warning", output, StringComparison.OrdinalIgnoreCase);
        var network = Emitted.Network(manifest);
        foreach (var node in network.Nodes)
        {
            var ident = node.Name.Replace('-', '_');
            var built = Directory.GetFiles(shop.Folder, ident + "_*.elf").Select(file => Path.GetFileNameWithoutExtension(file)[(ident.Length + 1)..]).Order(StringComparer.Ordinal);
            string[] wanted = network.Plan.Of(node).Listens ? ["bringup", "gateway", "survey", "try"] : ["bringup", "survey", "try"];
            var isOurs = node.Board!.Chip is "ATmega168" or "ATmega328P" or "ATmega1284P" or "ATmega2560" or "ATmega32U4";
            Assert.Equal(isOurs ? wanted : [], built);
            // A node that cannot be built is said so, with its board and where to read on.
            Assert.Equal(!isOurs, output.Contains($"{node.Name}: no compiler and no hooks here for {node.Board.Chip}: build its programs with its own tools", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task A_changed_header_builds_its_node_again_and_no_other()
    {
        shop.WriteAll(Emitted.WithPrograms(Emitted.Bench));
        await shop.MustRun("make", "-s");
        Assert.Equal("", await shop.MustRun("make", "-s"));
        File.SetLastWriteTimeUtc(Path.Combine(shop.Folder, "rack_radio.h"), DateTime.UtcNow.AddSeconds(5));
        var output = await shop.MustRun("make", "-n");
        Assert.Equal(4, output.Split("avr-gcc").Length - 1);
        Assert.DoesNotContain("bench_", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Flashing_calls_the_programmer_that_it_is_given()
    {
        shop.WriteAll(Emitted.WithPrograms(Emitted.Apiary));
        shop.Write("programmer", "echo \"$@\"\n");
        string[] asked = ["-s", "flash-hive-1", "PORT=/dev/port0", "PROGRAMMER=kind", "AVRDUDE=sh programmer"];
        Assert.Equal("-p atmega328p -c kind -P /dev/port0 -U flash:w:hive_1_bringup.hex:i\n", await shop.MustRun("make", asked));
        Assert.Equal("-p atmega328p -c kind -P /dev/port0 -b 57600 -D -U flash:w:hive_1_survey.hex:i\n", await shop.MustRun("make", [.. asked, "PROGRAM=survey", "BAUD=57600", "FLASH_OPTIONS=-D"]));
        foreach (var (missing, words) in new[] { ("PORT=", "PORT= is missing: where the programmer is"), ("PROGRAMMER=", "PROGRAMMER= is missing: the kind of programmer as avrdude calls it") })
        {
            var (status, output) = await shop.Run("make", [.. asked, missing]);
            Assert.NotEqual(0, status);
            Assert.Contains(words, output, StringComparison.Ordinal);
        }
        foreach (var target in new[] { "build-shed", "flash-shed" })
        {
            var (status, output) = await shop.Run("make", "-s", target, "PORT=x", "PROGRAMMER=y");
            Assert.NotEqual(0, status);
            Assert.Contains("shed: no compiler and no hooks here for ESP32: ", output, StringComparison.Ordinal);
        }
    }

    // The hooks of docs/firmware.md for another core; the other boards' programs are linked with them, as a stand-in for hooks of their own.
    [Theory]
    [InlineData("arm-none-eabi-gcc", "-mcpu=cortex-m0plus -mthumb")]
    [InlineData("riscv64-unknown-elf-gcc", "-march=rv32imac -mabi=ilp32")]
    [InlineData("xtensa-lx106-elf-gcc", "-mlongcalls")]
    [InlineData("gcc", "")]
    public async Task Programs_of_other_boards_link_with_hooks_of_their_own(string compiler, string target)
    {
        var page = await File.ReadAllTextAsync(Path.Combine(Emitted.Root, "docs", "firmware.md"), TestContext.Current.CancellationToken);
        shop.Write("hooks.c", Hooks().Match(page).Groups[1].Value);
        shop.Write("library.c", Library);
        string[] flags = [.. target.Split(' ', StringSplitOptions.RemoveEmptyEntries), "-Os", "-std=c99", "-ffreestanding", .. Strict.Split(' ')];
        var linked = 0;
        foreach (var manifest in new[] { Emitted.Apiary, Emitted.Store })
        {
            var files = Emitted.WithPrograms(manifest);
            shop.WriteAll(files);
            bool HasHooks(string program) => files.ContainsKey(program[..program.LastIndexOf('_')] + "_hooks_avr.h");
            foreach (var program in files.Keys.Where(name => name.EndsWith(".c", StringComparison.Ordinal) && !HasHooks(name)))
            {
                foreach (var extra in program.Contains("bringup", StringComparison.Ordinal) ? new[] { "-DNOTHING", "-DRADIO_TRY" } : ["-DNOTHING"])
                {
                    await shop.MustRun(compiler, [.. flags, extra, "-I.", "-nostdlib", "-nostartfiles", "-Wl,-e,main", program, "hooks.c", "library.c", "-lgcc", "-o", "program.elf"]);
                    linked++;
                }
            }
        }
        Assert.Equal(33, linked);
    }

    [Theory, MemberData(nameof(Compilers))]
    public async Task Report_lines_compile_without_a_warning(int index)
    {
        var compiler = Compiler.All[index];
        var files = Emitted.WithPrograms(Emitted.Apiary);
        shop.WriteAll(files);
        var functions = Function().Matches(files["radio_report.h"]).Select(match => $"    *out = (any_function)&{match.Groups[1].Value};\n");
        var name = "report" + (compiler.IsCpp ? ".cpp" : ".c");
        shop.Write(name, "#include \"radio_report.h\"\n#include \"shed_radio.h\"\n#include \"radio_report.h\"\n#ifdef __cplusplus\n#define KEEP extern \"C\" void\n#else\n#define KEEP void\n#endif\n"
            + "typedef void (*any_function)(void);\nKEEP keep(volatile any_function *out);\nKEEP keep(volatile any_function *out)\n{\n" + string.Concat(functions) + "}\n");
        var (status, output) = await shop.Run(compiler.Program, [.. await compiler.Flags(shop), "-I.", "-c", name]);
        Assert.True(status == 0 && output.Length == 0, $"{compiler}:\n{output}");
    }

    // Their order is checked too: the hooks are inlined into the node's header.
    [Theory]
    [InlineData("avr-gcc", "-std=c99", ".c")]
    [InlineData("avr-gcc", "-std=c11", ".c")]
    [InlineData("avr-g++", "-std=c++11", ".cpp")]
    public async Task Hooks_compile_for_every_part_that_they_know(string compiler, string standard, string ending)
    {
        var files = Emitted.WithPrograms(Emitted.Avr);
        shop.WriteAll(files);
        var parts = MakeLine().Matches(await shop.MustRun("make", "-n")).Select(match => (Ident: match.Groups["ident"].Value, Mcu: match.Groups["mcu"].Value)).Distinct().ToList();
        Assert.Equal(["atmega1284p", "atmega168", "atmega2560", "atmega328p", "atmega32u4"], parts.Select(part => part.Mcu).Order(StringComparer.Ordinal));
        var flags = Strict.Split(' ').Where(flag => ending == ".c" || !flag.Contains("prototypes", StringComparison.Ordinal)).ToList();
        foreach (var (ident, mcu) in parts)
        {
            foreach (var define in new[] { "-DALL", "-DRADIO_NO_CONSOLE" })
            {
                shop.Write("hooks" + ending, $"#include \"{ident}_hooks_avr.h\"\nint main(void)\n{{\n    radio_board_start();\n    return (int){ident}_verify();\n}}\n");
                await shop.MustRun(compiler, [$"-mmcu={mcu}", "-Os", standard, .. flags, define, "-I.", "hooks" + ending, "-o", "hooks.elf"]);
            }
        }
        shop.Write("late" + ending, $"#include \"{parts[0].Ident}_radio.h\"\n#include \"{parts[0].Ident}_hooks_avr.h\"\n");
        var (status, output) = await shop.Run(compiler, [$"-mmcu={parts[0].Mcu}", "-Os", standard, "-I.", "-c", "late" + ending]);
        Assert.True(status != 0 && output.Contains("before", StringComparison.Ordinal), output);
    }

    [GeneratedRegex(@"<!-- hooks -->\n```c\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Hooks();

    [GeneratedRegex(@"^static inline [^(\n]*?(\w+)\(", RegexOptions.Multiline)]
    private static partial Regex Function();

    [GeneratedRegex(@"^avr-gcc -mmcu=(?<mcu>\w+) .* -o (?<ident>\w+)_bringup\.elf$", RegexOptions.Multiline)]
    private static partial Regex MakeLine();
}
