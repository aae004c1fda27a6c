using System.Globalization;
using System.Text.RegularExpressions;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>
/// Hostile bytes into emitted decoders and into the reader of serial lines, by a coverage-guided fuzzer with sanitizers for memory and undefined behaviour. A fixed
/// number of runs from a fixed seed; RADIOLINT_FUZZ_SECONDS makes it so many seconds, from RADIOLINT_SEED.
/// </summary>
public sealed partial class Fuzzing : IDisposable
{
    // Each in about a second; the lines' own check value takes its time.
    private static readonly Dictionary<string, (int Runs, int Longest)> Extent = new() { ["fuzz_codec.c"] = (400_000, 36), ["fuzz_line.c"] = (60_000, 260) };

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Decoders_take_what_is_theirs_and_nothing_else() => await MustPass("fuzz_codec.c", Codec(Emitted.Everything));

    [Fact]
    public async Task Lines_are_read_and_written_right() => await MustPass("fuzz_line.c", Line());

    // One fault each, which the properties are there for.
    [Theory]
    [InlineData("hive_1_radio.h", "uint8_t fits = (count == HIVE_1_ORDER_LENGTH) ? 1u : 0u;", "uint8_t fits = (count + 1u >= HIVE_1_ORDER_LENGTH) ? 1u : 0u;")]
    [InlineData("hive_1_radio.h", "uint8_t fits = (count == HIVE_1_ORDER_LENGTH) ? 1u : 0u;", "uint8_t fits = (count >= HIVE_1_ORDER_LENGTH) ? 1u : 0u;")]
    [InlineData("bench_radio.h", "(bytes[0] != (uint8_t)BENCH_MIXED_VERSION_VALUE)", "(bytes[0] > (uint8_t)BENCH_MIXED_VERSION_VALUE)")]
    [InlineData("shed_radio.h", "radio_load_16_little(&bytes[4])", "radio_load_16_little(&bytes[3])")]
    public async Task A_fault_in_a_decoder_is_found(string file, string text, string instead)
    {
        var header = Emitted.Everything[file];
        Assert.Contains(text, header, StringComparison.Ordinal);
        var (status, output) = await Fuzz("fuzz_codec.c", Codec(Emitted.Everything.SetItem(file, header.Replace(text, instead, StringComparison.Ordinal))));
        Assert.True(status != 0 && output.Contains("SUMMARY", StringComparison.Ordinal), output);
    }

    [Theory]
    // The check value is not looked at, or one digit of it; what stands behind it counts for nothing; one byte too many is kept.
    [InlineData("(line->bytes[at] != radio_hex_digit((uint8_t)(check >> 4)))", "(check == 0x100u)")]
    [InlineData("(line->count - at != 2)", "(line->count - at < 2)")]
    [InlineData("(count < 32u) && (line->count - at >= 2)", "(count < 33u) && (line->count - at >= 2)")]
    [InlineData("} else if (line->count < RADIO_LINE_LONGEST) {", "} else if (line->count <= RADIO_LINE_LONGEST) {")]
    [InlineData("{digits[count] = (uint8_t)('0' +", "{digits[count] = (uint8_t)('1' +")]
    public async Task A_fault_in_the_reader_of_lines_is_found(string text, string instead)
    {
        (text, instead) = (text.TrimStart('{'), instead.TrimStart('{'));
        var files = Line().ToDictionary(file => file.Key, file => file.Value);
        Assert.Contains(text, files["radio_report.h"], StringComparison.Ordinal);
        files["radio_report.h"] = files["radio_report.h"].Replace(text, instead, StringComparison.Ordinal);
        var (status, output) = await Fuzz("fuzz_line.c", files);
        Assert.True(status != 0, output);
    }

    private async Task MustPass(string program, IEnumerable<KeyValuePair<string, string>> files)
    {
        var (status, output) = await Fuzz(program, files);
        Assert.True(status == 0, output);
        var done = Done().Match(output);
        Assert.True(done.Success, output);
        TestContext.Current.TestOutputHelper?.WriteLine($"{program}: {done.Value}");
    }

    private async Task<(int Status, string Output)> Fuzz(string program, IEnumerable<KeyValuePair<string, string>> files)
    {
        shop.WriteAll(files);
        shop.Write(program, await File.ReadAllTextAsync(Emitted.Program(program), TestContext.Current.CancellationToken));
        await shop.MustRun("clang-14", "-std=c99", "-g", "-O1", "-fsanitize=fuzzer,address,undefined", "-fno-sanitize-recover=all", "-Wall", "-Wextra", "-Wno-unused-function", "-I.", program, "-o", "fuzz");
        // What comparisons saw includes addresses, which are others every time: guided by coverage alone where the run must be the same.
        IEnumerable<string> end = Environment.GetEnvironmentVariable("RADIOLINT_FUZZ_SECONDS") is { Length: > 0 } seconds
            ? [$"-max_total_time={seconds}"]
            : [string.Create(CultureInfo.InvariantCulture, $"-runs={Extent[program].Runs}"), "-use_cmp=0"];
        var seed = Environment.GetEnvironmentVariable("RADIOLINT_SEED") is { Length: > 0 } stated ? stated : "1";
        var (status, output) = await shop.Run(Path.Combine(shop.Folder, "fuzz"), [.. end, $"-seed={seed}", FormattableString.Invariant($"-max_len={Extent[program].Longest}"), "-len_control=0", "-detect_leaks=0", "-print_final_stats=1"]);
        // The last lines tell.
        return (status, string.Join("\n", output.Split('\n').TakeLast(60)));
    }

    private static IEnumerable<KeyValuePair<string, string>> Codec(IReadOnlyDictionary<string, string> files) =>
        [.. files, new("codecs.h", Codecs.Header(files, [Emitted.Apiary, Emitted.Bench, Emitted.Store]))];

    private static IEnumerable<KeyValuePair<string, string>> Line() => Emitted.WithPrograms(Emitted.Avr).Where(file => file.Key.StartsWith("radio_", StringComparison.Ordinal));

    [GeneratedRegex("Done [0-9]+ runs in [0-9]+ second.*")]
    private static partial Regex Done();
}
