using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Emitted headers compiled for this machine, and run.</summary>
public sealed class Programs : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Theory]
    [InlineData("gcc", "-std=c99 -O2")]
    [InlineData("clang-14", "-std=c11 -O1 -fsanitize=undefined -fno-sanitize-recover=all")]
    public async Task What_one_node_encodes_the_other_decodes(string compiler, string flags) =>
        Assert.Matches("^[1-9][0-9]{2} checks, 0 faults\n$", await Built("codec.c", compiler, flags));

    [Theory]
    [InlineData("gcc", "-std=c99 -O2")]
    [InlineData("clang-14", "-std=c11 -O1 -fsanitize=undefined -fno-sanitize-recover=all")]
    public async Task A_dirty_chip_holds_the_plan_afterwards_and_roles_change_cleanly(string compiler, string flags) =>
        Assert.Equal("0 faults\n", await Built("chip.c", compiler, flags));

    [Fact]
    public async Task A_wrong_place_in_a_header_is_noticed()
    {
        shop.WriteAll(Emitted.Everything);
        var header = Emitted.Everything["shed_radio.h"];
        shop.Write("shed_radio.h", header.Replace("radio_load_16_little(&bytes[4])", "radio_load_16_little(&bytes[3])", StringComparison.Ordinal));
        var (status, output) = await Run("codec.c", "gcc", "-std=c99");
        Assert.True(status == 1 && output.Contains("line ", StringComparison.Ordinal), output);
    }

    private async Task<string> Built(string program, string compiler, string flags)
    {
        shop.WriteAll(Emitted.Everything);
        var (status, output) = await Run(program, compiler, flags);
        Assert.True(status == 0, output);
        return output;
    }

    private async Task<(int Status, string Output)> Run(string program, string compiler, string flags)
    {
        shop.Write(program, File.ReadAllText(Emitted.Program(program)));
        await shop.MustRun(compiler, [.. flags.Split(' '), "-I.", program, "-o", "program"]);
        return await shop.Run(Path.Combine(shop.Folder, "program"));
    }
}
