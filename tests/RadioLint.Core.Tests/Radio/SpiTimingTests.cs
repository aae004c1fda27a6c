using RadioLint.Hardware;
using RadioLint.Radio;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>How fast MISO may be read, and what hangs on it.</summary>
public sealed class SpiTimingTests
{
    // Delays: nRF24L01+ Product Specification 1.0, Tables 22 to 24 (T_cd). Set-up: ATmega328/P data sheet 42735A, table 32-9 (10 ns), STM32F103 DS5319 Rev 18,
    // table 42 (5 ns), STM32F411 DS10314 Rev 8, table 60 (4 ns). The quotients are computed: 1 / (2 x sum).
    [Theory]
    [InlineData(55, 10, 7_692_307)]
    [InlineData(58, 10, 7_352_941)]
    [InlineData(86, 10, 5_208_333)]
    [InlineData(58, 5, 7_936_507)]
    [InlineData(58, 4, 8_064_516)]
    [InlineData(123, 0, 4_065_040)]
    public void Half_a_period_holds_delay_and_set_up(int delay, int setup, int hertz) =>
        Assert.Equal(new Frequency(hertz), SpiTiming.FastestRead(new(delay), new(setup)));

    // Values from memory: 5 pF, 10 pF a device, 1 pF a centimetre, begun ones whole.
    [Theory]
    [InlineData(0, 0, 5)]
    [InlineData(0, 50, 10)]
    [InlineData(0, 51, 11)]
    [InlineData(2, 100, 35)]
    public void Load_of_devices_and_wires(int devices, int millimetres, int picofarads) =>
        Assert.Equal(new Capacitance(picofarads), SpiTiming.Load(devices, new(millimetres)));

    // nRF24L01+ Product Specification 1.0, Tables 22 to 27: the clock that nobody writes, 4 MHz at most, is inside every row.
    [Fact]
    public void Default_clock_is_inside_every_row() =>
        Assert.All(RadioParts.Find("nRF24L01+")!.SpiClock, row => Assert.True(row.UpTo >= Frequency.FromMegahertz(4)));
}
