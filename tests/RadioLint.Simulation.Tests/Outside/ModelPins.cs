using System.Device.Gpio;
using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation.Outside;

/// <summary>Two pins of one modelled chip: CE as an output, IRQ as an input with callbacks on its falling edge.</summary>
internal sealed class ModelPins(Bench bench, Chip chip) : GpioDriver
{
    public const int Ce = 7;
    public const int Irq = 8;
    private readonly Dictionary<int, PinMode> modes = [];
    private PinChangeEventHandler? fallen;
    private bool irqBefore = true;

    protected override int PinCount => 40;

    /// <summary>Calls back when IRQ has fallen since the last look.</summary>
    public void Tell()
    {
        var level = chip.Irq;
        var hasFallen = irqBefore && !level;
        irqBefore = level;
        if (hasFallen)
            fallen?.Invoke(this, new PinValueChangedEventArgs(PinEventTypes.Falling, Irq));
    }

    protected override void OpenPin(int pinNumber)
    {
    }

    protected override void ClosePin(int pinNumber)
    {
    }

    protected override void SetPinMode(int pinNumber, PinMode mode) => modes[pinNumber] = mode;

    protected override PinMode GetPinMode(int pinNumber) => modes.GetValueOrDefault(pinNumber, PinMode.Input);

    protected override bool IsPinModeSupported(int pinNumber, PinMode mode) => true;

    protected override PinValue Read(int pinNumber) => pinNumber == Irq ? chip.Irq : chip.IsEnabled;

    protected override void Write(int pinNumber, PinValue value)
    {
        Assert.Equal(Ce, pinNumber);
        chip.Ce(value == PinValue.High, bench.Step());
        bench.Tell();
    }

    protected override WaitForEventResult WaitForEvent(int pinNumber, PinEventTypes eventTypes, CancellationToken cancellationToken) =>
        throw new NotSupportedException("nobody waits here");

    protected override void AddCallbackForPinValueChangedEvent(int pinNumber, PinEventTypes eventTypes, PinChangeEventHandler callback)
    {
        Assert.Equal((Irq, PinEventTypes.Falling), (pinNumber, eventTypes));
        fallen += callback;
    }

    protected override void RemoveCallbackForPinValueChangedEvent(int pinNumber, PinChangeEventHandler callback) => fallen -= callback;
}
