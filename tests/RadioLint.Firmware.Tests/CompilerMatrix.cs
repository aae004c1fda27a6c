using System.Text;
using System.Text.RegularExpressions;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Every emitted header through every compiler: alone, together, used, unused, with the program's own hooks.</summary>
public sealed partial class CompilerMatrix : IDisposable
{
    private const string OwnHooks = """
        #include <stdint.h>
        static inline void radio_select(void) { }
        static inline void radio_release(void) { }
        static inline uint8_t radio_exchange(uint8_t out) { return out; }
        static inline void radio_ce_level(uint8_t high) { (void)high; }
        static inline void radio_wait_us(uint16_t us) { (void)us; }
        #define RADIO_OWN_HOOKS

        """;

    private readonly Workshop shop = new();

    public static TheoryData<int> Compilers() => [.. Enumerable.Range(0, Compiler.All.Count)];

    public void Dispose() => shop.Dispose();

    [Theory, MemberData(nameof(Compilers))]
    public async Task Compiles_without_a_warning(int index)
    {
        var compiler = Compiler.All[index];
        shop.WriteAll(Emitted.Everything);
        var units = Units().ToList();
        foreach (var (name, text) in units)
            shop.Write(name + (compiler.IsCpp ? ".cpp" : ".c"), text);

        // One process a half: a compiler translates its units one after the other.
        var flags = (await compiler.Flags(shop)).ToList();
        var files = units.Select(unit => unit.Name + (compiler.IsCpp ? ".cpp" : ".c")).ToList();
        await Task.WhenAll(files.Chunk((files.Count + 1) / 2).Select(async half =>
        {
            var (status, output) = await shop.Run(compiler.Program, [.. flags, "-I.", "-c", .. half]);
            Assert.True(status == 0 && output.Length == 0, $"{compiler}:\n{output}");
        }));
        Assert.Equal(units.Count, Directory.GetFiles(shop.Folder, "*.o").Length);
        if (compiler.IsAvr)
            await HasNothingInRam();
    }

    [Fact]
    public void All_kinds_of_headers_are_among_them()
    {
        var all = string.Concat(Emitted.Everything.Values);
        foreach (var sign in new[] { "radio_open_features(", "_aim_rack(", "_listen_frames", "_store_24_big", "radio_store_text", "radio_bits_float", "_TIED 1u", "to->", "_aim_broadcast(", "_link_start(", "_send_broadcast_tick(", "_answer_hive_1_order(", "RADIO_WORD_UNASKING, bytes" })
            Assert.Contains(sign, all, StringComparison.Ordinal);
        Assert.True(Emitted.Everything.Count >= 16);
    }

    // Tables stay in flash, nothing runs before main.
    private async Task HasNothingInRam()
    {
        var sizes = await shop.MustRun("avr-size", ["-A", .. Directory.GetFiles(shop.Folder, "*.o")]);
        var inRam = InRam().Matches(sizes).Sum(match => int.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Contains(".progmem", sizes, StringComparison.Ordinal);
        Assert.Equal(0, inRam);
    }

    private static IEnumerable<(string Name, string Text)> Units()
    {
        var headers = Emitted.Everything.Keys.ToList();
        foreach (var header in headers)
            yield return ("alone_" + header.Replace('.', '_'), Unit([header], isUsed: true));
        yield return ("together_unused", Unit(headers, isUsed: false));
        yield return ("together", Unit(headers, isUsed: true));
        yield return ("together_backwards", Unit([.. headers.AsEnumerable().Reverse()], isUsed: false));
        yield return ("own_hooks", OwnHooks + Unit(headers, isUsed: true));
    }

    // Each header twice: the guard holds. Used: the address of every function leaves the unit.
    private static string Unit(IReadOnlyList<string> headers, bool isUsed)
    {
        var text = new StringBuilder();
        foreach (var header in headers.Concat(headers))
            text.Append("#include \"").Append(header).Append("\"\n");
        if (!isUsed)
            return text.Append("typedef int nothing;\n").ToString();
        text.Append("""
            #ifdef __cplusplus
            #define KEEP extern "C" void
            #else
            #define KEEP void
            #endif
            typedef void (*any_function)(void);
            KEEP keep(volatile any_function *out);
            KEEP keep(volatile any_function *out)
            {

            """);
        // What a header includes itself is there too.
        string[] included = headers is ["radio_contract.h"] ? [] : ["radio_contract.h", "radio_link.h"];
        var functions = headers.Concat(included).Distinct().SelectMany(header => Function().Matches(Emitted.Everything[header])).Select(match => match.Groups[1].Value);
        foreach (var function in functions.Order(StringComparer.Ordinal))
            text.Append("    *out = (any_function)&").Append(function).Append(";\n");
        return text.Append("}\n").ToString();
    }

    [GeneratedRegex(@"^static inline [^(\n]*?(\w+)\(", RegexOptions.Multiline)]
    private static partial Regex Function();

    [GeneratedRegex(@"^\.(?:data|rodata|bss|init_array|ctors)\S*\s+(\d+)", RegexOptions.Multiline)]
    private static partial Regex InRam();
}
