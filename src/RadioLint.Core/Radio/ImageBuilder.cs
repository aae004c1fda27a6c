using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Radio;

/// <summary>
/// From a node's plan to its register image. Field names, positions and codes are those of Table 28 of the nRF24L01+ Product
/// Specification 1.0; what differs in other parts comes from their profiles.
/// </summary>
internal sealed class ImageBuilder
{
    private const byte EnCrc = 0x08;
    private const byte Crco = 0x04;
    private const byte PwrUp = 0x02;
    private const byte PrimRx = 0x01;
    private const byte EnDpl = 0x04;
    private const byte EnAckPay = 0x02;
    private const byte EnDynAck = 0x01;
    private const byte FlushTx = 0xE1;
    private const byte FlushRx = 0xE2;
    private const byte AllFlags = 0x70;

    private readonly NodePlan plan;
    private readonly RadioPart part;
    private readonly RadioRate rate;
    private readonly PowerStep step;
    private readonly int channel;
    private readonly int width;
    private readonly int crc;
    private readonly List<Frame> frames = [];

    private ImageBuilder(NodePlan plan, RadioPart part, RadioRate rate, PowerStep step, int channel, int width, int crc)
    {
        this.plan = plan;
        this.part = part;
        this.rate = rate;
        this.step = step;
        this.channel = channel;
        this.width = width;
        this.crc = crc;
    }

    private Node Node => plan.Node;

    // A node that sends to several sets up for the first; the link layer changes TX_ADDR and RX_ADDR_P0 together.
    private Address? Destination => plan.Sends.IsEmpty ? null : plan.Sends[0].Address;

    private bool HearsAcknowledgements => plan.SendsAcknowledged;

    // A packet that says itself that it wants no acknowledgement still has the control field, so ENAA_P0 and DPL_P0 are set for it too.
    private bool IsDynamicSender => plan.AsksForAcknowledge && Node.Air.PayloadLength?.Value.Kind is LengthKind.Dynamic;

    // Acknowledgements with payload need dynamic length on pipe 0 of the receiver too, though it may be closed (Table 28 note d p63).
    private bool ReturnsPayloads => plan.Returns.Length > 0;

    private bool CarriesPayloadsBack => plan.Returns.Length > 0 || plan.Sends.Any(hop => hop.Riders.Length > 0);

    /// <summary>The image, or null while something that it needs is open, missing or out of the part's reach.</summary>
    public static RegisterImage? Build(NodePlan plan)
    {
        var (node, air) = (plan.Node, plan.Node.Air);
        if (node.Part is not { } part
            || air.ChosenChannel is not { } channel || channel < part.Channel.First || channel > part.Channel.Last
            || air.ChosenRate is not { } chosen || part.Rate(chosen) is not { } rate
            || air.AddressWidth is not { Value: >= Address.Narrowest and <= Address.Widest and var width }
            || air.Crc?.Value is not { } crc
            || node.Power is not { } power || part.Step(power.Value) is not { } step
            || (plan.SendsAcknowledged && plan.Retry is null)
            || plan.Sends.Any(hop => hop.Address?.Width != width) || plan.Pipes.Any(pipe => pipe.Address?.Width != width))
        {
            return null;
        }
        return new ImageBuilder(plan, part, rate, step, channel, width, crc).Build();
    }

    private RegisterImage Build()
    {
        var feature = Feature();
        Config(isUp: false);
        EnAa();
        EnRxAddr();
        Write(Registers.SetupAw, "SETUP_AW", FormattableString.Invariant($"addresses of {width} bytes"), (byte)(width - 2));
        SetupRetr();
        Write(Registers.RfCh, "RF_CH", FormattableString.Invariant($"channel {channel}, {2400 + channel} MHz"), (byte)channel);
        RfSetup();
        Addresses();
        Dynpd();
        Write(Registers.Feature, "FEATURE", FeatureMeaning(feature), feature);
        Write(Registers.Status, "STATUS", "clear all flags", AllFlags);
        frames.Add(Frame.Command(FlushTx, "FLUSH_TX", "empty the transmit FIFO"));
        frames.Add(Frame.Command(FlushRx, "FLUSH_RX", "empty the receive FIFO"));
        Config(isUp: true);
        return new(ImmutableArray.CreateRange(frames), part.NeedsUnlock && feature != 0);
    }

    private void Write(byte register, string name, string meaning, params byte[] data) => frames.Add(Frame.Write(register, name, meaning, data));

    private void Config(bool isUp)
    {
        // EN_CRC is forced to 1 while any EN_AA bit is 1 (p57): writing it makes the register read back as written.
        var hasCrc = crc > 0 || EnAaBits() != 0;
        var bits = IrqMask() | (hasCrc ? EnCrc : 0) | (crc == 2 ? Crco : 0) | (isUp ? PwrUp : 0) | (plan.Listens ? PrimRx : 0);
        var check = hasCrc ? FormattableString.Invariant($"CRC of {Math.Max(crc, 1)} byte{(crc == 2 ? "s" : "")}") : "no CRC";
        Write(Registers.Config, "CONFIG", $"{(isUp ? "power up" : "power down")}, {(plan.Listens ? "receiver" : "transmitter")}, {check}", (byte)bits);
    }

    // MASK_RX_DR, MASK_TX_DS, MASK_MAX_RT: 1 keeps the source off the IRQ pin.
    private int IrqMask()
    {
        if (Node.Wiring.Irq?.Use?.For is not { } wanted)
            return 0;
        var mask = 0x70;
        foreach (var source in wanted)
        {
            mask &= source.Value switch
            {
                IrqSource.Received => ~0x40,
                IrqSource.Sent => ~0x20,
                _ => ~0x10,
            };
        }
        return mask;
    }

    private byte EnAaBits() => Bits(plan.Pipes.Where(pipe => pipe.Acknowledges).Select(pipe => pipe.Number), plan.AsksForAcknowledge || ReturnsPayloads);

    private void EnAa()
    {
        var bits = EnAaBits();
        Write(Registers.EnAa, "EN_AA", bits == 0 ? "no automatic acknowledgement" : $"automatic acknowledgement on {PipesOf(bits)}", bits);
    }

    private void EnRxAddr()
    {
        // A node that also listens keeps pipe 0 closed meanwhile: it holds the address of somebody else, for whom it would acknowledge.
        var bits = Bits(plan.Pipes.Select(pipe => pipe.Number), HearsAcknowledgements && !plan.Listens && !plan.HasClosedPipe0);
        Write(Registers.EnRxAddr, "EN_RXADDR", bits == 0 ? "no pipe receives" : $"{PipesOf(bits)} receive{(IsSingle(bits) ? "s" : "")}", bits);
    }

    private void SetupRetr()
    {
        if (!HearsAcknowledgements || plan.Retry is not { } retry)
        {
            // Plain ShockBurst needs ARC 0 as well as EN_AA 0 (7.9 p49).
            Write(Registers.SetupRetr, "SETUP_RETR", "no repetitions", 0x00);
            return;
        }
        var code = (byte)(((retry.Delay.Microseconds / 250 - 1) << 4) | (long)retry.Limit);
        Write(Registers.SetupRetr, "SETUP_RETR", FormattableString.Invariant($"repeat after {retry.Delay}, at most {retry.Limit} times"), code);
    }

    private void RfSetup()
    {
        var setup = part.SetupRegister;
        var test = Node.Test?.Value switch { "carrier" => (setup.Carrier?.Value ?? 0) | setup.PllLock.Value, "pll-lock" => setup.PllLock.Value, _ => 0 };
        var bits = (byte)(rate.Bits | step.Bits | (setup.ReceiveBoost?.Value ?? 0) | test);
        Write(Registers.RfSetup, "RF_SETUP", $"{rate.Rate.InManifest()}, {step.Step}", bits);
    }

    private void Addresses()
    {
        if (Destination is { } destination)
        {
            Write(Registers.TxAddr, "TX_ADDR", $"send to {destination}", [.. destination.RegisterBytes]);
            if (HearsAcknowledgements && plan.Pipes.All(pipe => pipe.Number != 0))
                Write(Registers.RxAddrP0, "RX_ADDR_P0", "acknowledgements come back to the same address", [.. destination.RegisterBytes]);
        }
        foreach (var pipe in plan.Pipes)
        {
            if (pipe.Number >= 2 && plan.Pipes.All(other => other.Number != 1) && pipe == plan.Pipes.First(other => other.Number >= 2))
                Write(Registers.RxAddrP1, "RX_ADDR_P1", "pipe 1 is closed; the others take their upper bytes from here", [.. pipe.Address!.RegisterBytes]);
            byte[] data = pipe.Number >= 2 ? [pipe.Address!.LowByte] : [.. pipe.Address!.RegisterBytes];
            Write((byte)(Registers.RxAddrP0 + pipe.Number), FormattableString.Invariant($"RX_ADDR_P{pipe.Number}"), $"{pipe.Address}", data);
        }
        foreach (var pipe in plan.Pipes.Where(pipe => pipe.FixedLength is not null))
        {
            Write(
                (byte)(Registers.RxPwP0 + pipe.Number), FormattableString.Invariant($"RX_PW_P{pipe.Number}"),
                FormattableString.Invariant($"{pipe.FixedLength} bytes"), (byte)pipe.FixedLength!.Value);
        }
    }

    private byte DynamicPipes() => Bits(plan.Pipes.Where(pipe => pipe.FixedLength is null).Select(pipe => pipe.Number), IsDynamicSender || ReturnsPayloads);

    private void Dynpd()
    {
        var bits = DynamicPipes();
        Write(Registers.Dynpd, "DYNPD", bits == 0 ? "fixed lengths" : $"dynamic length on {PipesOf(bits)}", bits);
    }

    private byte Feature()
    {
        var bits = 0;
        if (DynamicPipes() != 0)
            bits |= EnDpl;
        if (CarriesPayloadsBack)
            bits |= EnAckPay;
        if (Node.Air.NoAcknowledge?.Value ?? plan.Sends.Any(hop => hop.IsSentWithoutAcknowledge))
            bits |= EnDynAck;
        return (byte)bits;
    }

    private static string FeatureMeaning(byte bits)
    {
        var parts = new List<string>();
        if ((bits & EnDpl) != 0)
            parts.Add("dynamic length");
        if ((bits & EnAckPay) != 0)
            parts.Add("payload in acknowledgements");
        if ((bits & EnDynAck) != 0)
            parts.Add("packets without acknowledgement");
        return parts.Count == 0 ? "none" : string.Join(", ", parts);
    }

    private static byte Bits(IEnumerable<int> pipes, bool pipe0) => (byte)pipes.Aggregate(pipe0 ? 1 : 0, (bits, pipe) => bits | (1 << pipe));

    private static bool IsSingle(byte bits) => (bits & (bits - 1)) == 0;

    private static string PipesOf(byte bits) =>
        (IsSingle(bits) ? "pipe " : "pipes ")
        + string.Join(", ", Enumerable.Range(0, 6).Where(pipe => (bits & (1 << pipe)) != 0).Select(pipe => FormattableString.Invariant($"{pipe}")));
}
