using System.Diagnostics;
using System.Globalization;
using System.Text;
using RadioLint.Binding;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>
/// Natural layout is what compilers make of a struct: asked of those that are installed, by assertions on offsetof and sizeof that only right
/// figures compile with. No compiler for Xtensa is installed; its figures are from memory.
/// </summary>
public sealed class CompilerLayoutTests
{
    private const string Manifest = """
        radiolint: 1
        network: cellar
        nodes: { hall: { board: esp32 } }
        payloads:
          single: { a: uint8, b: uint16, c: uint8, d: uint32, e: uint8, f: uint64, g: uint8 }
          signed: { a: int8, b: int64, c: int8, d: int32, e: int16, f: int8 }
          others: { a: uint8, b: float32, c: text 5, d: bytes 3, e: uint16, f: uint8 }
          several: { a: uint8, b: 3 x uint16, c: uint8, d: 2 x uint64, e: 2 x text 3, f: uint32 }
          bits: { a: { bits: { x: 8, y: 1 } }, b: uint8, c: { bits: { x: 32 } }, d: { bits: { x: 24 } }, e: { uint16: [p, q] }, f: { bits: [x] } }
          ordered: { a: uint64, b: uint32, c: uint16, d: uint8, e: uint8 }
        """;

    [Theory]
    [InlineData("gcc", "", "bcm283x")]
    [InlineData("avr-gcc", "-mmcu=atmega328p", "atmega328p")]
    [InlineData("avr-gcc", "-mmcu=attiny85", "attiny85")]
    [InlineData("arm-none-eabi-gcc", "-mcpu=cortex-m0plus -mthumb", "rp2040")]
    [InlineData("arm-none-eabi-gcc", "-mcpu=cortex-m3 -mthumb", "stm32f103")]
    [InlineData("arm-none-eabi-gcc", "-mcpu=cortex-m4 -mthumb", "nrf52840")]
    [InlineData("riscv64-unknown-elf-gcc", "-march=rv32imc -mabi=ilp32", "esp32c3")]
    public void Structs_lie_as_the_compiler_has_them(string compiler, string options, string board)
    {
        var widest = Compilers.WidestAlignment(ShippedBoards.Find(board)!)!.Value;
        var (status, said) = Compile(compiler, options, Asserting(widest, wrong: 0));
        Assert.True(status == 0, said);
        // An assertion that is not looked at would hold for any figure.
        var (wrong, complaint) = Compile(compiler, options, Asserting(widest, wrong: 1));
        Assert.NotEqual(0, wrong);
        Assert.Contains("static assertion failed", complaint, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_shipped_board_has_a_known_core() =>
        Assert.All(ShippedBoards.Names, name => Assert.NotNull(Compilers.WidestAlignment(ShippedBoards.Find(name)!)));

    private static string Asserting(int widest, int wrong)
    {
        var code = new StringBuilder("#include <stddef.h>\n#include <stdint.h>\n");
        foreach (var payload in Linter.Read(new SourceText("a.radio.yaml", Manifest), _ => null)!.Payloads)
        {
            code.Append(CultureInfo.InvariantCulture, $"struct {payload.Name}_s {{\n");
            foreach (var field in payload.Fields)
                code.Append(CultureInfo.InvariantCulture, $"    {Declaration(field)};\n");
            code.Append("};\n");
            foreach (var (field, offset) in payload.Layout(widest))
                code.Append(CultureInfo.InvariantCulture, $"_Static_assert(offsetof(struct {payload.Name}_s, {field.Name}) == {offset}, \"{payload.Name} {field.Name}\");\n");
            code.Append(CultureInfo.InvariantCulture, $"_Static_assert(sizeof(struct {payload.Name}_s) == {payload.SizeAt(widest) + wrong}, \"{payload.Name}\");\n");
        }
        return code.ToString();
    }

    private static string Declaration(Field field)
    {
        var (type, length) = field.Kind switch
        {
            FieldKind.Text => ("char", field.Size),
            FieldKind.Bytes => ("uint8_t", field.Size),
            FieldKind.Float => ("float", 1),
            FieldKind.Bits when field.ItemSize == 3 => ("uint8_t", 3),
            _ => (string.Create(CultureInfo.InvariantCulture, $"{(field.IsSigned ? "" : "u")}int{field.ItemSize * 8}_t"), field.Count),
        };
        return length == 1 && field.Count == 1 ? $"{type} {field.Name}" : string.Create(CultureInfo.InvariantCulture, $"{type} {field.Name}[{length}]");
    }

    private static (int Status, string Said) Compile(string compiler, string options, string code)
    {
        // What is not installed fails here, and not silently.
        using var process = Process.Start(new ProcessStartInfo(compiler, $"{options} -std=c11 -ffreestanding -fsyntax-only -x c -")
        {
            RedirectStandardInput = true,
            RedirectStandardError = true,
        })!;
        process.StandardInput.Write(code);
        process.StandardInput.Close();
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, said);
    }
}
