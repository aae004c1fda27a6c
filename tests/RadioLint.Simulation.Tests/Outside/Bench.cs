using System.Device.Gpio;
using System.Device.Spi;
using System.Diagnostics;
using Iot.Device.Nrf24l01;
using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation.Outside;

/// <summary>
/// Devices of a general-purpose package of bindings, each with a modelled chip behind its SPI and pins, on one air. The package sleeps
/// in real time, so the air follows a stopwatch here; nothing that is asserted depends on it.
/// </summary>
internal sealed class Bench : IDisposable
{
    private readonly Stopwatch watch = Stopwatch.StartNew();
    private long lastElapsed;
    private readonly List<ModelPins> pins = [];
    private readonly List<IDisposable> devices = [];

    public Air Air { get; } = new();

    public (Nrf24l01 Device, Chip Chip, ModelBus Bus) Add(
        byte packetSize = 8, byte channel = 74, OutputPower power = OutputPower.N00dBm, DataRate rate = DataRate.Rate1Mbps)
    {
        var chip = Air.Add(ChipVariants.Plus);
        chip.SpiClock(Nrf24l01.SpiClockFrequency);
        var settings = new SpiConnectionSettings(0, 0) { ClockFrequency = Nrf24l01.SpiClockFrequency, Mode = Nrf24l01.SpiMode };
        var bus = new ModelBus(this, chip, settings);
        var driver = new ModelPins(this, chip);
        pins.Add(driver);
        var device = new Nrf24l01(bus, ModelPins.Ce, ModelPins.Irq, packetSize, channel, power, rate, new GpioController(driver), true);
        devices.Add(device);
        return (device, chip, bus);
    }

    /// <summary>
    /// The moment of the next frame or pin: what the stopwatch has gone on since the last, and 10 us for the way through a driver (value
    /// from memory), so that the package does not seem to hurry.
    /// </summary>
    public long Step()
    {
        var elapsed = watch.ElapsedTicks * Ticks.Microseconds(1_000_000) / Stopwatch.Frequency;
        Air.AdvanceBy(Math.Max(0, elapsed - lastElapsed) + Ticks.Microseconds(10));
        lastElapsed = elapsed;
        return Air.Now;
    }

    /// <summary>Lets pins call back.</summary>
    public void Tell() => pins.ForEach(each => each.Tell());

    /// <summary>Time for all that is under way; virtual, so that nobody waits.</summary>
    public void Settle()
    {
        Air.AdvanceBy(5 * Ticks.PerMillisecond);
        Tell();
    }

    public void Dispose() => devices.ForEach(each => each.Dispose());
}
