using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>radio_link.h, compiled for this machine and run on a small chip of the tests' own (programs/fake_chip.h).</summary>
public sealed class LinkLayer : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Theory]
    [InlineData("gcc", "-std=c99 -O2")]
    [InlineData("clang-14", "-std=c11 -O1 -fsanitize=undefined -fno-sanitize-recover=all")]
    public async Task Every_outcome_in_every_role(string compiler, string flags)
    {
        var (status, output) = await Run(compiler, flags.Split(' '), Emitted.Everything[EmitSetLink]);
        Assert.True(status == 0, output);
        Assert.Matches("^1[0-9]{2} checks, 0 faults\n$", output);
    }

    // Each takes one thing away that the data sheet or the caller relies on.
    [Theory]
    [InlineData("(void)radio_tell(0xE1u);       /* FLUSH_TX: answers", "/* answers")]
    [InlineData("(void)radio_tell(0xE1u);   /* a packet", "/* a packet")]
    [InlineData("radio_put(0x07u, 0x30u);       /* TX_DS", "/* TX_DS")]
    [InlineData("radio_wait_us(RADIO_CE_PULSE_US); /* 10 us at least", "/* 10 us at least")]
    [InlineData("radio_wait_us(RADIO_CE_PULSE_US); /* 4 us", "/* 4 us")]
    [InlineData("radio_wait_us(RADIO_START_UP_US); /* power down", "/* power down")]
    [InlineData("radio_wait_us(RADIO_START_UP_US); /* D1", "/* D1")]
    [InlineData("        radio_wait_us(RADIO_ACKNOWLEDGED_US);\n        link->state", "        link->state")]
    [InlineData("    radio_wait_us(RADIO_ACKNOWLEDGED_US);\n    (void)radio_tell(0xE2u);", "    (void)radio_tell(0xE2u);")]
    [InlineData("(count <= 32u)) {\n        uint8_t i;", "(count <= 64u)) {\n        uint8_t i;")]
    [InlineData("#define RADIO_SEND_POLLS 2000u", "#define RADIO_SEND_POLLS 500u")]
    [InlineData("link->rang = 0u;                   /* before", "/* before")]
    [InlineData("radio_link_turn(link, role);\n                if", "if")]
    [InlineData("radio_put(0x00u, link->config_down); /* with CE", "/* with CE")]
    public async Task What_is_left_out_is_noticed(string text, string instead)
    {
        var header = Emitted.Everything[EmitSetLink];
        Assert.Equal(2, header.Split(text).Length);
        var (status, output) = await Run("gcc", ["-std=c99", "-O1"], header.Replace(text, instead, StringComparison.Ordinal));
        Assert.True(status == 1 && output.StartsWith("line ", StringComparison.Ordinal), output);
    }

    [Fact]
    public void It_cites_the_data_sheet_at_every_wait()
    {
        foreach (var line in Emitted.Everything[EmitSetLink].Split('\n').Where(line => line.StartsWith("#define RADIO_", StringComparison.Ordinal) && line.Contains("_US ", StringComparison.Ordinal)))
            Assert.True(line.Contains("(D1 Table", StringComparison.Ordinal) || line.Contains("between two looks", StringComparison.Ordinal), line);
    }

    private const string EmitSetLink = RadioLint.Emit.EmitSet.LinkFile;

    private async Task<(int Status, string Output)> Run(string compiler, IEnumerable<string> flags, string header)
    {
        shop.WriteAll(Emitted.Everything);
        shop.Write(EmitSetLink, header);
        foreach (var program in new[] { "fake_chip.h", "link.c" })
            shop.Write(program, File.ReadAllText(Emitted.Program(program)));
        await shop.MustRun(compiler, [.. flags, "-Wall", "-Wextra", "-Werror", "-Wno-unused-function", "-I.", "link.c", "-o", "link"]);
        return await shop.Run(Path.Combine(shop.Folder, "link"));
    }
}
