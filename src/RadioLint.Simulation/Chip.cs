using System.Collections.ObjectModel;

namespace RadioLint.Simulation;

/// <summary>
/// One radio chip: pins, SPI byte by byte, registers, FIFOs and the automatic packet handling, as nRF24L01+ Product Specification 1.0
/// describes it. Times are at or after those already passed on its air. Where the data sheet is silent, the choice is told where it is made.
/// </summary>
public sealed class Chip
{
    private readonly List<Violation> violations = [];
    private long timer = Ticks.Never;
    private long ceRose = -Ticks.PerMillisecond;

    internal Chip(Air air, int number, ChipVariant variant)
    {
        Air = air;
        Number = number;
        Variant = variant;
        Registers = new(variant);
        Violations = violations.AsReadOnly();
        Ear = new(this);
        Modes = new(this);
        Sender = new(this);
        Responder = new(this);
        Port = new(this);
        Renew();
    }

    public Air Air { get; }

    /// <summary>Its place on the air.</summary>
    public int Number { get; }

    public ChipVariant Variant { get; }
    public RadioSettings Settings { get; } = new();
    public RetryReading RetryReading { get; set; }
    public ChipState State { get; internal set; }

    /// <summary>True in standby-II: nothing to send, or the wait before a repeat in the parts that spend it there (Table 28 note b p63).</summary>
    public bool IsInStandby2 => State == ChipState.Standby2 || (State == ChipState.RetryWait && Variant.RestsInStandby2);

    /// <summary>CE.</summary>
    public bool IsEnabled { get; private set; }

    /// <summary>Level of the IRQ pin: low while a flag that is not masked is set (Table 28 p57).</summary>
    public bool Irq => (Flags & ~Registers[Register.Config] & StatusFlags.All) == 0;

    /// <summary>All since power-on, in order.</summary>
    public ReadOnlyCollection<Violation> Violations { get; }

    /// <summary>Payloads received and not yet read.</summary>
    public PayloadFifo RxFifo { get; } = new();

    /// <summary>Payloads to send, or to go with acknowledgements.</summary>
    public PayloadFifo TxFifo { get; } = new();

    internal RegisterMap Registers { get; }
    internal Ear Ear { get; }
    internal Modes Modes { get; }
    internal Sender Sender { get; }
    internal Responder Responder { get; }
    internal SpiPort Port { get; }

    /// <summary>RX_DR, TX_DS and MAX_RT in their places in STATUS.</summary>
    internal byte Flags { get; set; }

    /// <summary>False in the earlier part until ACTIVATE.</summary>
    internal bool IsUnlocked { get; set; }

    internal long NextMoment => Math.Min(timer, Ear.Due);

    /// <summary>STATUS, as shifted out with every command byte (8.3.1 p50, Table 28 p59).</summary>
    public byte Status => (byte)(Flags | ((RxFifo.IsEmpty ? 7 : RxFifo.Info(0).Pipe) << 1) | (TxFifo.IsFull ? 1 : 0));

    /// <summary>Moves CSN; a frame takes effect when it rises.</summary>
    public void Csn(bool level, long now)
    {
        Air.Advance(now);
        if (!level && IsEnabled && now - ceRose < Ticks.CeToCsn)
            Note(ViolationKind.CsnAfterCe, 0, (int)(now - ceRose));
        Port.Select(level);
        Air.Reschedule(this);
    }

    /// <summary>Shifts a byte in and one out; the moment is that of its first bit.</summary>
    public byte Spi(byte mosi, long now)
    {
        Air.Advance(now);
        return Port.Exchange(mosi);
    }

    /// <summary>Moves CE.</summary>
    public void Ce(bool level, long now)
    {
        Air.Advance(now);
        if (level == IsEnabled)
            return;
        IsEnabled = level;
        if (level)
        {
            ceRose = now;
            Sender.OnToggle();
        }
        else if (Settings.IsPowered && now - ceRose < Ticks.CePulse)
        {
            Note(ViolationKind.ShortCePulse, 0, (int)(now - ceRose));
            Modes.CancelStart();
        }
        Modes.Evaluate();
        Air.Reschedule(this);
    }

    /// <summary>A whole frame without any time passing: CSN low, the bytes, CSN high.</summary>
    public byte Transfer(params ReadOnlySpan<byte> mosi) => Transfer(mosi, default);

    /// <summary>The same with what comes back; <paramref name="miso"/> is as long as <paramref name="mosi"/> or empty.</summary>
    public byte Transfer(ReadOnlySpan<byte> mosi, Span<byte> miso)
    {
        Csn(false, Air.Now);
        var status = (byte)0;
        for (var i = 0; i < mosi.Length; i++)
        {
            var value = Port.Exchange(mosi[i]);
            if (i == 0)
                status = value;
            if (!miso.IsEmpty)
                miso[i] = value;
        }
        Csn(true, Air.Now);
        return status;
    }

    /// <summary>States the clock at which SPI is driven, so that it is held against the limit.</summary>
    public void SpiClock(int hertz)
    {
        if (hertz > Variant.SpiHertz)
            Note(ViolationKind.SpiClock, 0, hertz);
    }

    /// <summary>Forgets what was noted so far, as for a chip that was brought into some state on purpose before a test.</summary>
    public void ForgetViolations() => violations.Clear();

    /// <summary>The value of a register of one byte, as R_REGISTER gives it, without SPI.</summary>
    public byte Read(byte register) => Port.Value(register, 0);

    /// <summary>An address register or one byte, least significant byte first, all that is stored.</summary>
    public ulong ReadWide(byte register) => Register.IsWide(register) ? Registers.Address(register, 5) : Read(register);

    /// <summary>The supply goes off and on: everything is lost, and SPI waits for the end of the reset (6.1.7 p24, Table 14 p20).</summary>
    public void PowerCycle(long now)
    {
        Air.Advance(now);
        Sender.Cut();
        Renew();
        State = ChipState.Reset;
        timer = now + Variant.PowerOnTicks;
        Air.Reschedule(this);
    }

    internal void Note(ViolationKind kind, byte subject, int value) => violations.Add(new(kind, Air.Now, subject, value));

    /// <summary>As after a reset that is long over.</summary>
    internal void Renew()
    {
        Registers.Reset();
        RxFifo.Clear();
        TxFifo.Clear();
        Flags = 0;
        IsUnlocked = !Variant.NeedsUnlock;
        IsEnabled = false;
        ceRose = -Ticks.PerMillisecond;
        violations.Clear();
        State = ChipState.PowerDown;
        timer = Ticks.Never;
        Ear.Renew();
        Sender.Renew();
        Responder.Renew();
        Port.Renew();
        Settings.Refresh(Registers, Variant, IsUnlocked);
    }

    /// <summary>Takes up what registers say now.</summary>
    internal void Apply()
    {
        Settings.Refresh(Registers, Variant, IsUnlocked);
        Ear.Retune();
        Modes.Evaluate();
    }

    internal void Go(ChipState state, long ticks)
    {
        State = state;
        timer = ticks == Ticks.Never ? Ticks.Never : Air.Now + ticks;
    }

    internal void OnMoment()
    {
        var now = Air.Now;
        if (Ear.Due == now)
            Ear.OnDue();
        if (timer == now)
        {
            timer = Ticks.Never;
            Modes.OnTimer();
        }
    }

    /// <summary>The pipe that takes an address, or -1. A sender that waits takes acknowledgements on pipe 0 alone (App. A p75).</summary>
    internal int Accepts(ulong address) => State != ChipState.AckListening ? Settings.Match(address)
        : Settings.IsOpen(0) && Settings.Address(0) == address ? 0 : -1;

    /// <summary>Bytes of payload to cut out, or -1 where the packet says it. Without dynamic length an acknowledgement is empty.</summary>
    internal int ExpectedLength(int pipe) => Settings.IsDynamic(pipe) ? -1 : State == ChipState.AckListening ? 0 : Settings.StaticLength(pipe);

    internal void OnPacket(bool isGood, int pipe, PacketControl control, ReadOnlySpan<byte> payload, int checksum)
    {
        if (State == ChipState.AckListening)
            Sender.OnAnswer(isGood, payload);
        else if (isGood)
            Responder.OnPacket(pipe, control, payload, checksum);
    }
}
