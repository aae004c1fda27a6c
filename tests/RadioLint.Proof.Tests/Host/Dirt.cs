using Proof;
using RadioLint.Simulation;
using Xunit;
using Air = RadioLint.Simulation.Air;

namespace RadioLint.Tests.Proof.Host;

/// <summary>
/// A radio in the worst state to begin in: every bit that the plan sets is the other way round, all flags are set, both FIFOs are full, it listens with CE high.
/// </summary>
public sealed class Dirt
{
    private const byte Config = 0x00, EnAa = 0x01, SetupRetr = 0x04, Status = 0x07, LastWritable = 0x16, Dynpd = 0x1C, Feature = 0x1D;

    private readonly Expected expected;
    private readonly Dictionary<byte, byte[]> held = [];

    private Dirt(Expected expected, bool isUnlocked)
    {
        this.expected = expected;
        IsUnlocked = isUnlocked;
        foreach (var register in Writable)
        {
            var planned = expected.Frames.LastOrDefault(frame => frame[0] == (0x20 | register))?[1..];
            held[register] = Register.IsWide(register) ? Wide(register, planned) : [Single(register, planned)];
        }
    }

    public static IReadOnlyList<byte> Writable { get; } =
        [.. Enumerable.Range(0, LastWritable + 1).Where(register => register is not (Status or 0x08 or 0x09)).Append(Dynpd).Append(Feature).Select(register => (byte)register)];

    /// <summary>Whether FEATURE and DYNPD are open already in the part that hides them.</summary>
    public bool IsUnlocked { get; }

    /// <summary>What every register holds, address registers with all five bytes.</summary>
    public IReadOnlyDictionary<byte, byte[]> Held => held;

    /// <summary>The states to begin in: the earlier part has two.</summary>
    public static IEnumerable<Dirt> Of(Expected expected) =>
        ChipVariants.Find(expected.Node.Part)!.NeedsUnlock ? [new(expected, false), new(expected, true)] : [new(expected, true)];

    public Board Board()
    {
        var air = new Air();
        var (chip, other) = (air.Add(ChipVariants.Find(expected.Node.Part)!), air.Add(ChipVariants.Plus));
        air.AdvanceBy(100 * Ticks.PerMillisecond);
        if (chip.Variant.NeedsUnlock)
            chip.Transfer(Command.Activate, Command.ActivateKey);
        SetFlags(air, chip, other);
        foreach (var (register, bytes) in held)
            chip.Transfer([(byte)(0x20 | register), .. bytes]);
        if (chip.Variant.NeedsUnlock && !IsUnlocked)
            chip.Transfer(Command.Activate, Command.ActivateKey);
        chip.Ce(true, air.Now);
        air.AdvanceBy(200 * Ticks.PerMicrosecond);
        chip.ForgetViolations();
        if (chip.State is not ChipState.Rx || (chip.Status & 0x71) != 0x71 || !chip.RxFifo.IsFull)
            throw new InvalidOperationException($"not as dirty as it should be: {chip.State}, STATUS {chip.Status:X2}");
        return new(air, chip, expected.Node.HasTiedCe);
    }

    // A packet that went out, one that was given up, three that came in; the FIFO of what is to be sent full.
    private static void SetFlags(Air air, Chip chip, Chip other)
    {
        foreach (var one in new[] { chip, other })
        {
            one.Transfer(0x20 | EnAa, 0);
            one.Transfer(0x20 | SetupRetr, 0);
            one.Transfer(0x20 | Register.RfSetup, 0x08);
            one.Transfer(0x20 | Register.RxPwP0, 1);
        }
        chip.Transfer(0x20 | Config, 0x0B);
        other.Transfer(0x20 | Config, 0x0A);
        air.AdvanceBy(5 * Ticks.PerMillisecond);
        chip.Ce(true, air.Now);
        for (var i = 0; i < PayloadFifo.Levels; i++)
            Pulse(other);
        chip.Ce(false, air.Now);
        chip.Transfer(0x20 | Config, 0x0A);
        Pulse(chip);
        chip.Transfer(0x20 | EnAa, 1);
        Pulse(chip);
        for (var i = chip.TxFifo.Count; i < PayloadFifo.Levels; i++)
            chip.Transfer(Command.WTxPayload, 0x66);

        void Pulse(Chip sender)
        {
            sender.Transfer(Command.WTxPayload, 0x55);
            sender.Ce(true, air.Now);
            air.AdvanceBy(20 * Ticks.PerMicrosecond);
            sender.Ce(false, air.Now);
            air.AdvanceBy(Ticks.PerMillisecond);
        }
    }

    private byte Single(byte register, byte[]? planned)
    {
        if (register == Config)
            return (byte)((~(planned?[0] ?? 0) & 0x7C) | 0x03);
        return (byte)((planned is null ? 0x2A : ~planned[0]) & expected.Table.Usable(register));
    }

    private static byte[] Wide(byte register, byte[]? planned) => [.. Enumerable.Range(0, 5).Select(i => planned is not null && i < planned.Length ? (byte)~planned[i] : (byte)(0x51 + register + i))];
}
