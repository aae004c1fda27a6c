using System.Globalization;
using RadioLint.Model;

namespace RadioLint.Tests.Firmware.Support;

/// <summary>A node's emitted program with its ready-made hooks, built by the emitted Makefile, to be run on an emulated AVR (programs/emulated.c).</summary>
public static class EmulatedNode
{
    /// <summary>Builds emulator and program; the emulator prints what the node's serial port sends.</summary>
    /// <param name="files">What was emitted, by name.</param>
    /// <param name="chip">`fresh`, or `gone` for none.</param>
    /// <param name="order">What comes in at the serial port after a second.</param>
    public static async Task<(string Program, string[] Arguments)> Build(
        Workshop shop, IEnumerable<KeyValuePair<string, string>> files, string manifest, string name, string program, int seconds, string chip, string order)
    {
        shop.WriteAll(files);
        foreach (var file in new[] { "fake_chip.h", "emulated.c" })
            shop.Write(file, File.ReadAllText(Emitted.Program(file)));
        await shop.MustRun("gcc", "-std=gnu99", "-O1", "-Wall", "-Wextra", "-Werror", "emulated.c", "-lsimavr", "-o", "emulated");
        var elf = $"{name.Replace('-', '_')}_{program}.elf";
        await shop.MustRun("make", "-s", elf);
        var node = Emitted.Network(manifest).Nodes.Single(one => one.Name == name);
        var (csn, ce) = (node.Wiring.Csn!.Pin!.Port, node.Wiring.Ce!.Tie is PinTie.High ? "P-0" : node.Wiring.Ce.Pin!.Port);
        string Number(long value) => value.ToString(CultureInfo.InvariantCulture);
        return (Path.Combine(shop.Folder, "emulated"),
        [
            elf, node.Board!.Chip.ToLowerInvariant(), Number(node.Board.Clock!.Value.Hertz), csn[1..2], csn[2..], ce[1..2], ce[2..],
            node.Board.Chip == "ATmega32U4" ? "1" : "0", Number(seconds), chip, Number(node.Wiring.Clock!.Value.Hertz / 1000), order,
        ]);
    }
}
