using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>The programs of the tutorial build with the headers that its manifest gives today, warnings being errors.</summary>
public sealed class TutorialPrograms : IDisposable
{
    private static readonly string Folder = Path.Combine(Emitted.Root, "docs", "examples", "first-pair");

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Theory]
    [InlineData("cellar.c")]
    [InlineData("hall.c")]
    public async Task Build(string program)
    {
        shop.WriteAll(Emitted.Files(Path.Combine(Folder, "first-pair.radio.yaml")).Select(file => KeyValuePair.Create(file.Name, file.Text)));
        foreach (var name in new[] { "hooks.h", program })
            shop.Write(name, File.ReadAllText(Path.Combine(Folder, name)));
        await shop.MustRun("avr-gcc", "-mmcu=atmega328p", "-Os", "-std=c99", "-Wall", "-Wextra", "-Werror", "-I.", program, "-o", "program.elf");
        Assert.Contains(".text", await shop.MustRun("avr-size", "-A", "program.elf"), StringComparison.Ordinal);
    }
}
