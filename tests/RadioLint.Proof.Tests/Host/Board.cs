using RadioLint.Simulation;

namespace RadioLint.Tests.Proof.Host;

/// <summary>The radio of one node behind the hooks, and all that went over its lines.</summary>
/// <param name="isTied">CE is always high, whatever the program asks for.</param>
public sealed class Board(Air air, Chip chip, bool isTied)
{
    private readonly List<byte[]> frames = [];
    private readonly List<byte> frame = [];

    public Chip Chip => chip;

    /// <summary>Whole SPI frames in order.</summary>
    public IReadOnlyList<byte[]> Frames => frames;

    /// <summary>What the program asked of CE.</summary>
    public List<bool> Levels { get; } = [];

    public void Forget()
    {
        frames.Clear();
        Levels.Clear();
        chip.ForgetViolations();
    }

    public void Select() => chip.Csn(false, air.Now);

    public byte Exchange(byte value)
    {
        frame.Add(value);
        return chip.Spi(value, air.Now);
    }

    public void Release()
    {
        frames.Add([.. frame]);
        frame.Clear();
        chip.Csn(true, air.Now);
    }

    public void Ce(bool level)
    {
        Levels.Add(level);
        if (!isTied)
            chip.Ce(level, air.Now);
    }

    public void Wait(int microseconds) => air.AdvanceBy(Ticks.Microseconds(microseconds));
}
