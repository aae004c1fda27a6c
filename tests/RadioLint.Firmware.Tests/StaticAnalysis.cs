using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>The headers under a general static analyzer of C (cppcheck 2.10), whose findings are none of a compiler's.</summary>
public sealed class StaticAnalysis : IDisposable
{
    // The two macros that tell targets apart stand undefined: else the analyzer also explores a table attribute that nobody gave.
    private static readonly string[] Options =
    [
        "--quiet", "--enable=warning,style,performance,portability", "--std=c99", "--error-exitcode=3",
        "-URADIO_TABLE", "-U__AVR__", "--suppress=missingIncludeSystem",
    ];

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Finds_nothing_in_any_header()
    {
        shop.WriteAll(Emitted.Everything);
        var units = Emitted.Everything.Keys.Select(header => Path.GetFileName(shop.Write($"{header}.c", $"#include \"{header}\"\n"))).ToList();
        Assert.True(units.Count > 10, "the headers of three networks");
        Assert.Equal("", await shop.MustRun("cppcheck", [.. Options, .. units]));
    }

    // The interrupt and the functions of a header that one program leaves alone are no fault of it.
    [Fact]
    public async Task Finds_nothing_in_any_program()
    {
        foreach (var manifest in new[] { Emitted.Apiary, Emitted.Bench, Emitted.Avr })
        {
            var files = Emitted.WithPrograms(manifest);
            shop.WriteAll(files);
            var programs = files.Keys.Where(name => name.EndsWith(".c", StringComparison.Ordinal)).ToList();
            Assert.True(programs.Count > 8, "programs of several nodes");
            Assert.Equal("", await shop.MustRun("cppcheck", [.. Options, .. programs]));
        }
    }

    [Fact]
    public async Task Would_find_a_write_past_the_end()
    {
        shop.Write("past.c", "void past(void);\nvoid past(void)\n{\n    unsigned char bytes[4];\n    bytes[4] = 0u;\n    (void)bytes;\n}\n");
        var (status, output) = await shop.Run("cppcheck", [.. Options, "past.c"]);
        Assert.Equal(3, status);
        Assert.Contains("past.c:5", output, StringComparison.Ordinal);
    }
}
