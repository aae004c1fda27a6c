using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Readback;
using RadioLint.Units;

namespace RadioLint.Starting;

/// <summary>A receive pipe as a radio holds it.</summary>
/// <param name="Length">Fixed number of bytes; null where each packet says its own.</param>
internal sealed record HeldPipe(int Number, Address Address, bool Acknowledges, int? Length);

/// <summary>
/// What the registers of a running radio say, in the terms of a manifest. Bits are those of Table 28 of the nRF24L01+ Product Specification 1.0; a register that the
/// listing lacks counts as at power-on.
/// </summary>
internal sealed class HeldRadio
{
    private const byte Pipe0 = 0x01;
    private const string Usual = "nRF24L01+";

    private static readonly byte[] Needed =
    [
        Registers.Config, Registers.EnAa, Registers.EnRxAddr, Registers.SetupAw, Registers.SetupRetr, Registers.RfCh, Registers.RfSetup, Registers.RxAddrP0, Registers.RxAddrP1,
        Registers.TxAddr, Registers.Dynpd, Registers.Feature,
    ];

    private readonly Listing listing;

    public HeldRadio(string name, Listing listing)
    {
        (Name, this.listing) = (name, listing);
        Part = PartOf(listing);
        Missing = ImmutableArray.CreateRange(Needed.Where(one => listing[one] is null).Select(RegisterMap.NameOf));
        var config = One(Registers.Config);
        Crc = (config & 0x08) == 0 ? 0 : (config & 0x04) == 0 ? 1 : 2;
        MaskedIrq = config & 0x70;
        Width = Math.Min(Math.Max((One(Registers.SetupAw) & 0x03) + 2, Address.Narrowest), Address.Widest);
        var open = One(Registers.EnRxAddr);
        var target = AddressAt(Registers.TxAddr);
        var isReset = target.AirBytes.All(one => one == 0xE7);
        var isReceiver = (config & 0x01) != 0;
        // Beside a receiver's role TX_ADDR may stand at its power-on value; a sender's pipe 0 is there for acknowledgements.
        Target = isReceiver ? isReset ? null : target : isReset && (open & Pipe0) == 0 ? null : target;
        // Pipe 1 is open at power-on: where nobody gave it an address nobody uses it.
        var listens = isReceiver || ((open & 0x3E) != 0 && !AddressAt(Registers.RxAddrP1).AirBytes.All(one => one == 0xC2));
        Pipes = listens
            ? ImmutableArray.CreateRange(Enumerable.Range(0, 6).Where(pipe => (open & (1 << pipe)) != 0 && (pipe != 0 || isReceiver)).Select(Pipe))
            : ImmutableArray<HeldPipe>.Empty;
        AsksForAcknowledge = Target is not null && (One(Registers.EnAa) & Pipe0) != 0;
        var comesBack = AddressAt(Registers.RxAddrP0).Equals(Target);
        // In a receiver's role pipe 0 may be closed meanwhile, or listen at another address: then repetitions tell.
        IsAcknowledged = AsksForAcknowledge && (Pipes.IsEmpty ? (open & Pipe0) != 0 || (comesBack && !SetsNoAcknowledge) : comesBack || One(Registers.SetupRetr) != 0);
        HasClosedPipe0 = IsAcknowledged && Pipes.IsEmpty && (open & Pipe0) == 0;
    }

    public string Name { get; }
    public RadioPart Part { get; }
    public Listing Listing => listing;

    /// <summary>Registers that the listing lacks.</summary>
    public ImmutableArray<string> Missing { get; }

    public int Channel => One(Registers.RfCh) & 0x7F;
    public DataRate Rate => Part.Rates.FirstOrDefault(rate => rate.Bits == (One(Registers.RfSetup) & Part.SetupRegister.RateMask.Value))?.Rate ?? DataRate.Mbps1;
    public PowerStep Power => Part.PowerSteps.FirstOrDefault(step => step.Bits == (One(Registers.RfSetup) & Part.SetupRegister.PowerMask.Value)) ?? Part.PowerSteps[0];
    public int Crc { get; }

    /// <summary>Bits of CONFIG that keep sources off the IRQ pin.</summary>
    public int MaskedIrq { get; }

    public int Width { get; }

    /// <summary>Where it sends now; null for a radio that only listens.</summary>
    public Address? Target { get; }

    public ImmutableArray<HeldPipe> Pipes { get; }

    /// <summary>True when its packets ask for an acknowledgement, or say that they want none.</summary>
    public bool AsksForAcknowledge { get; }

    public bool IsAcknowledged { get; }

    /// <summary>True when it waits for acknowledgements and no pipe can hear them.</summary>
    public bool HasClosedPipe0 { get; }

    /// <summary>The value of `acknowledge` that its EN_AA comes from.</summary>
    public bool Acknowledges => Target is not null ? AsksForAcknowledge : Pipes.IsEmpty || Pipes.Any(pipe => pipe.Acknowledges);

    /// <summary>True when it counts lengths by the packet.</summary>
    public bool IsDynamic => AsksForAcknowledge ? (One(Registers.Dynpd) & Pipe0) != 0 : Pipes.All(pipe => pipe.Length is null);

    public bool CarriesPayloadsBack => (One(Registers.Feature) & 0x02) != 0;

    /// <summary>True when pipe 0 is set up to acknowledge, as a radio that gives payloads back needs it.</summary>
    public bool AcknowledgesAtPipe0 => (One(Registers.EnAa) & Pipe0) != 0;

    public bool SetsNoAcknowledge => (One(Registers.Feature) & 0x01) != 0;
    public Duration RetryDelay => new(250_000L * ((One(Registers.SetupRetr) >> 4) + 1));
    public int RetryLimit => One(Registers.SetupRetr) & 0x0F;

    public string? Test
    {
        get
        {
            var setup = One(Registers.RfSetup);
            return Part.SetupRegister.Carrier is { } carrier && (setup & carrier.Value) != 0 ? "carrier" : (setup & Part.SetupRegister.PllLock.Value) != 0 ? "pll-lock" : null;
        }
    }

    /// <summary>True when no program has set it up: all is as after power-on.</summary>
    public bool IsPowerOn => PowerOn.Fits(listing, Part);

    /// <summary>True when no radio answered: every byte reads the same.</summary>
    public static bool IsSilent(Listing listing) => listing.Registers.All(one => one.Bytes.All(each => each == 0)) || listing.Registers.All(one => one.Bytes.All(each => each == 0xFF));

    private HeldPipe Pipe(int number)
    {
        var address = number < 2 ? AddressAt((byte)(Registers.RxAddrP0 + number)) : AddressAt(Registers.RxAddrP1).WithLowByte(One((byte)(Registers.RxAddrP0 + number)));
        var isDynamic = (One(Registers.Feature) & 0x04) != 0 && (One(Registers.Dynpd) & (1 << number)) != 0;
        return new(number, address, (One(Registers.EnAa) & (1 << number)) != 0, isDynamic ? null : One((byte)(Registers.RxPwP0 + number)) & 0x3F);
    }

    private Address AddressAt(byte register)
    {
        var held = Held(register);
        var bytes = Enumerable.Range(0, Width).Select(at => at < held.Length ? held[at] : (byte)0);
        return new(ImmutableArray.CreateRange(bytes.Reverse()));
    }

    private byte One(byte register) => Held(register) is { IsEmpty: false } bytes ? bytes[0] : (byte)0;

    private ImmutableArray<byte> Held(byte register) => listing[register]?.Bytes ?? PowerOn.Reset(Part, register);

    // The part whose RF_SETUP can be so, the current one first: registers do not name it.
    private static RadioPart PartOf(Listing listing)
    {
        var parts = RadioParts.Names.Select(name => RadioParts.Find(name)!).OrderBy(part => part.Name == Usual ? 0 : part.LookAlikeOf is null ? 1 : 2).ToList();
        return listing[Registers.RfSetup] is { } setup ? parts.Find(part => CanHold(part, setup.Value)) ?? parts[0] : parts[0];
    }

    private static bool CanHold(RadioPart part, byte value)
    {
        var setup = part.SetupRegister;
        var rest = value & ~(setup.RateMask.Value | setup.PowerMask.Value | (setup.Carrier?.Value ?? 0) | setup.PllLock.Value);
        return part.Rates.Any(rate => rate.Bits == (value & setup.RateMask.Value)) && part.PowerSteps.Any(step => step.Bits == (value & setup.PowerMask.Value))
            && rest == (setup.ReceiveBoost?.Value ?? 0);
    }
}
