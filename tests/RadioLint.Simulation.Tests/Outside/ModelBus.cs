using System.Device.Spi;
using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation.Outside;

/// <summary>SPI of one modelled chip: each full transfer is one CSN frame. Keeps the frames that went out.</summary>
internal sealed class ModelBus(Bench bench, Chip chip, SpiConnectionSettings settings) : SpiDevice
{
    public List<byte[]> Frames { get; } = [];

    public override SpiConnectionSettings ConnectionSettings => settings;

    public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        Assert.Equal(SpiMode.Mode0, settings.Mode);
        Frames.Add(writeBuffer.ToArray());
        var now = bench.Step();
        var byteTicks = 8 * Ticks.Microseconds(1_000_000) / settings.ClockFrequency;
        chip.Csn(false, now);
        for (var i = 0; i < writeBuffer.Length; i++)
        {
            readBuffer[i] = chip.Spi(writeBuffer[i], now);
            now += byteTicks;
        }
        chip.Csn(true, now);
        bench.Tell();
    }

    public override void Read(Span<byte> buffer) => TransferFullDuplex(new byte[buffer.Length], buffer);

    public override void Write(ReadOnlySpan<byte> buffer) => TransferFullDuplex(buffer, new byte[buffer.Length]);
}
