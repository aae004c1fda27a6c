using System.Buffers.Binary;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using RadioLint.Simulation;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Emulation;

/// <summary>
/// Compiled programs on emulated cores, chip models on their SPI, one air between them. The cores run in a process of their own, which tells of every byte and
/// pin; one tick of the air is one cycle at 16 MHz.
/// </summary>
public sealed class Emulator : IDisposable
{
    private const int SpiByte = 1;
    private const int SpiSetup = 2;
    private const int Port = 3;
    private const int Mark = 4;
    private const int Result = 5;
    private const int Stopped = 6;
    private const int Done = 6;

    private readonly Workshop shop = new();
    private string? host;

    /// <summary>Compiles a program for a core as its users would.</summary>
    public async Task<string> Compile(string name, string mcu, IEnumerable<(string Name, string Text)> headers, string program)
    {
        foreach (var (file, text) in headers)
            shop.Write($"{name}/{file}", text);
        var source = shop.Write($"{name}/{name}.c", program);
        var elf = Path.Combine(shop.Folder, name, name + ".elf");
        await shop.MustRun("avr-gcc", $"-mmcu={mcu}", "-DF_CPU=16000000UL", "-std=c99", "-Os", "-Wall", "-Wextra", "-Werror", "-I", Path.Combine(shop.Folder, name), "-o", elf, source);
        return elf;
    }

    /// <summary>Runs all cores until they have ended, or for so many cycles.</summary>
    public async Task<AvrTrace[]> Run(Air air, long cycles, params AvrCore[] cores)
    {
        host ??= await BuildHost();
        var start = new ProcessStartInfo(host) { RedirectStandardInput = true, RedirectStandardOutput = true, UseShellExecute = false };
        start.ArgumentList.Add(cycles.ToString(CultureInfo.InvariantCulture));
        foreach (var core in cores)
        {
            start.ArgumentList.Add(core.Mcu);
            start.ArgumentList.Add("16000000");
            start.ArgumentList.Add(core.Elf);
        }
        using var process = Process.Start(start)!;
        var traces = cores.Select(_ => new AvrTrace()).ToArray();
        try
        {
            Follow(air, process, cores, traces);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
        }
        finally
        {
            if (!process.HasExited)
                process.Kill();
        }
        Assert.True(process.ExitCode == 0, $"the emulator ended with {process.ExitCode}");
        return traces;
    }

    public void Dispose() => shop.Dispose();

    private static void Follow(Air air, Process process, AvrCore[] cores, AvrTrace[] traces)
    {
        var selected = new List<byte>?[cores.Length];
        var begin = air.Now;
        var output = process.StandardOutput.BaseStream;
        var input = process.StandardInput.BaseStream;
        var at = new byte[12];
        var answer = new byte[1];
        while (output.ReadAtLeast(at, at.Length, throwOnEndOfStream: false) == at.Length)
        {
            var (core, trace, radio) = (cores[at[0]], traces[at[0]], cores[at[0]].Radio);
            var value = BinaryPrimitives.ReadUInt16LittleEndian(at.AsSpan(2));
            var cycle = (long)BinaryPrimitives.ReadUInt64LittleEndian(at.AsSpan(4));
            // Cores go forward in steps of a few cycles; the air never goes back.
            var now = Math.Max(air.Now, begin + cycle);
            switch (at[1])
            {
                case SpiByte:
                    trace.Bytes++;
                    selected[at[0]]?.Add((byte)value);
                    answer[0] = selected[at[0]] is null ? (byte)0xFF : radio.Spi((byte)value, now);
                    input.Write(answer);
                    input.Flush();
                    break;
                case SpiSetup:
                    trace.SpiSetups.Add(value);
                    break;
                case Port:
                    var letter = (char)('A' + (value >> 8));
                    if (letter == core.Csn.Port)
                        Select((value & (1 << core.Csn.Bit)) != 0, at[0], now);
                    if (letter == core.Ce.Port)
                        radio.Ce((value & (1 << core.Ce.Bit)) != 0, Math.Max(air.Now, now));
                    break;
                case Mark:
                    trace.Marks.Add((byte)value);
                    trace.MarkedAt.TryAdd((byte)value, cycle);
                    break;
                case Result:
                    trace.Result = (value & 0xFF, value >> 8);
                    break;
                case Stopped:
                    trace.IsDone = value == Done;
                    break;
                default:
                    throw new InvalidOperationException($"event {at[1]}");
            }
        }

        void Select(bool level, int number, long now)
        {
            if (level && selected[number] is { } frame)
            {
                if (frame.Count > 0)
                    traces[number].Frames.Add([.. frame]);
                selected[number] = null;
                cores[number].Radio.Csn(true, now);
            }
            else if (!level && selected[number] is null)
            {
                selected[number] = [];
                cores[number].Radio.Csn(false, now);
            }
        }
    }

    private async Task<string> BuildHost()
    {
        var made = Path.Combine(shop.Folder, "host");
        await shop.MustRun("gcc", "-O2", "-Wall", "-Wextra", "-Werror", "-o", made, Path.Combine(Path.GetDirectoryName(Here())!, "host", "host.c"), "-lsimavr");
        return made;
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
