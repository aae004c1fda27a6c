using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>One direction of a link: what is sent, what arrives, and what is left above the sensitivity.</summary>
/// <param name="Radiated">EIRP, with the usual gain of a printed antenna or a whip where none is stated.</param>
/// <param name="Loss">Of the path.</param>
/// <param name="Received">At the receiver's antenna socket, behind its cable.</param>
public sealed record LinkBudget(PowerLevel Radiated, Gain Loss, PowerLevel Received, PowerLevel Sensitivity)
{
    public Gain Margin => Received - Sensitivity;

    /// <summary>Pr = EIRP - Lpath + Gr - Lcable; null while an antenna, a part or the sensitivity at that rate is not known.</summary>
    public static LinkBudget? Of(Node sender, Node receiver, DataRate rate, Gain loss)
    {
        if (Conducted(sender) is not { } conducted || Antenna(sender) is not { } sending || Antenna(receiver) is not { } receiving || SensitivityOf(receiver, rate) is not { } least)
            return null;
        var radiated = Eirp.Of(conducted, sending.Gain, sending.Cable);
        return new(radiated, loss, Arriving(radiated, loss, receiving.Gain, receiving.Cable), least);
    }

    /// <summary>The definition itself.</summary>
    public static PowerLevel Arriving(PowerLevel radiated, Gain loss, Gain antenna, Gain cable) => radiated - loss + antenna - cable;

    /// <summary>What goes into the cable; null while power, part or front end is not known.</summary>
    public static PowerLevel? Conducted(Node node) =>
        node.Power is not { } power || node.Part?.Step(power.Value) is null || (node.Radio.FrontEnd is not null && node.FrontEnd is null) ? null
            : node.FrontEnd?.Output(power.Value) ?? power.Value;

    /// <summary>
    /// What a receiver hears at 0.1 % bit errors. Behind a front end the chip's own figure holds unless the sheet of the module states another at
    /// this rate: a preamplifier helps, and nobody states by how much.
    /// </summary>
    public static PowerLevel? SensitivityOf(Node node, DataRate rate)
    {
        if (node.Part?.Rate(rate) is not { } at || (node.Radio.FrontEnd is not null && node.FrontEnd is null))
            return null;
        return node.FrontEnd?.Sensitivity is { } stated && stated.When == rate.InManifest() ? stated.Value : at.Sensitivity.Value;
    }

    /// <summary>What stands at the chip itself: a preamplifier adds its gain, to a strong signal too.</summary>
    public static PowerLevel AtChip(Node node, PowerLevel received) => node.FrontEnd is { } front ? received + front.ReceiveGain.Value : received;

    /// <summary>
    /// Share of packets lost in noise alone: 1 - (1 - b)^n for b bit errors in a bit and n bits behind the preamble; at the sensitivity itself
    /// b is 0.1 % (nRF24L01+ Product Specification 1.0, Table 7).
    /// </summary>
    public static Share PacketLoss(Share bitErrors, int bits) =>
        new((long)Math.Round((1 - Math.Pow(1 - (bitErrors.Millionths / 1e6), bits)) * 1e6, MidpointRounding.AwayFromZero));

    /// <summary>
    /// Gain and loss of an antenna: as stated, else 0 dBi for a printed one and 2 dBi for a whip, no cable; null where neither says it, and for
    /// a node that has nothing to radiate with.
    /// </summary>
    public static (Gain Gain, Gain Cable)? Antenna(Node node)
    {
        if (node.Radio.Antenna?.Value is not { } antenna || antenna.Kind?.Value is AntennaKind.None or AntennaKind.DummyLoad)
            return null;
        var gain = antenna.Gain?.Value ?? antenna.Kind?.Value switch { AntennaKind.Printed => new Gain(0), AntennaKind.Whip => new Gain(200), _ => (Gain?)null };
        return gain is { } known ? (known, antenna.Cable?.Value ?? new Gain(0)) : null;
    }
}
