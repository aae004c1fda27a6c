using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>What one end of a link has for a setting.</summary>
/// <param name="Text">For messages.</param>
/// <param name="InManifest">What the other end would have to write to be the same; null where no single value does it.</param>
internal sealed record EndSetting(string Text, string? InManifest, Place Place, bool IsWritten);

/// <summary>A setting that differs between the two ends of a link.</summary>
internal sealed record Difference(string Key, EndSetting AtSender, EndSetting AtReceiver)
{
    /// <summary>
    /// True when packets are delivered all the same, as they are now: a dynamic one into a pipe of just its length, which does not look at the length field; one with
    /// a CRC to a receiver that looks at none.
    /// </summary>
    public bool IsHarmless { get; init; }

    /// <summary>The nine bits of which acknowledgement and length are made.</summary>
    public const string ControlField = "control field";
    public const string AddressWidth = "address-width";

    /// <summary>All settings that must be the same at both ends and are not; values that are open or did not read are left out.</summary>
    public static IEnumerable<Difference> Of(Network network, Hop hop)
    {
        var (sender, receiver) = (network.Plan.Of(hop.Sender), network.Plan.Of(hop.Receiver));
        var (from, to) = (hop.Sender.Air, hop.Receiver.Air);
        if (from.ChosenChannel is { } channel && to.ChosenChannel is { } other && channel != other)
            yield return new("channel", End(from.Channel!, Number(channel)), End(to.Channel!, Number(other)));
        if (from.ChosenRate is { } rate && to.ChosenRate is { } otherRate && rate != otherRate)
            yield return new("rate", End(from.Rate!, rate.InManifest()), End(to.Rate!, otherRate.InManifest()));
        if (from.AddressWidth is { } width && to.AddressWidth is { } otherWidth && width.Value != otherWidth.Value)
            yield return new(AddressWidth, End(width, Number(width.Value)), End(otherWidth, Number(otherWidth.Value)));
        if (sender.CheckBytes is { } crc && receiver.CheckBytes is { } otherCrc && crc != otherCrc)
            yield return new("crc", Crc(from.Crc!, crc), Crc(to.Crc!, otherCrc)) { IsHarmless = otherCrc == 0 };
        if (receiver.Pipes.FirstOrDefault(pipe => pipe.Number == hop.Pipe) is not { } open)
            yield break;
        var own = hop.Receiver.OwnPipes?.FirstOrDefault(pipe => pipe.Number == hop.Pipe);
        if (Acknowledge(hop, sender, receiver, open, own) is { } acknowledge)
            yield return acknowledge;
        if (Length(hop, receiver, open, own) is { } length)
            yield return length;
    }

    private static Difference? Acknowledge(Hop hop, NodePlan sender, NodePlan receiver, OpenPipe open, OwnPipe? own)
    {
        var (asks, gives) = (hop.Link.Acknowledge ?? hop.Sender.Air.Acknowledge, own?.Acknowledge ?? hop.Receiver.Air.Acknowledge);
        if (asks is null || gives is null)
            return null;
        // A packet that says itself that it wants none may go to a pipe that would give one; a broadcast that asks is RL4206.
        if (hop.IsAcknowledged != open.Acknowledges && !hop.IsSentWithoutAcknowledge && !BroadcastAcknowledged.IsOne(hop))
            return new("acknowledge", End(asks, Truth(hop.IsAcknowledged)), End(gives, Truth(open.Acknowledges)));
        // With every acknowledgement off, packets lack the control field, and a radio that uses it cannot read them (7.9 p49).
        if (sender.HasControlField == receiver.HasControlField)
            return null;
        var speaks = receiver.Node.OwnPipes is null ? null : receiver.Pipes.FirstOrDefault(pipe => pipe.Acknowledges);
        return new(ControlField, Present(asks, sender.HasControlField), Present(gives, receiver.HasControlField) with { Place = speaks?.Place ?? gives.Place });
    }

    private static Difference? Length(Hop hop, NodePlan receiver, OpenPipe open, OwnPipe? own)
    {
        if (hop.Sender.Air.PayloadLength is not { } sends || (own?.PayloadLength ?? hop.Receiver.Air.PayloadLength) is not { } takes || hop.Link.Payload is not { HasKnownSize: true } payload)
            return null;
        // Lengths that no packet can have are RL5302, payloads that do not fit RL6105, dynamic ones without acknowledgement RL5304.
        var sent = sends.Value.Kind is LengthKind.Dynamic ? (int?)null : RetryPlanner.SentBytes(hop);
        if (sent == open.FixedLength || sent is < 1 or > 32 || open.FixedLength is < 1 or > 32 || (open.FixedLength is null && !open.Acknowledges)
            || (sent is null && !hop.IsAcknowledged && !hop.IsSentWithoutAcknowledge))
        {
            return null;
        }
        // One `exact` for both, and two payloads of different size on the pipe.
        if (sends.Place == takes.Place && open.Hops.FirstOrDefault(other => other.Link.Payload?.Size == open.FixedLength)?.Link.Payload is { } longest)
            return new("payload-length", Exact(payload), Exact(longest));
        // Who returns payloads has dynamic length on pipe 0, whatever is written (Table 28, note d).
        var isDynamic = hop.Pipe == 0 && !receiver.Returns.IsEmpty;
        return new("payload-length", Bytes(sends, sent, payload), Bytes(takes, open.FixedLength, payload)) { IsHarmless = sent is null && (isDynamic || (open.FixedLength == payload.Size && hop.Riders.IsEmpty)) };
    }

    private static EndSetting End<T>(Stated<T> stated, string text) => new(text, text, stated.Place, !stated.IsDefault);

    private static EndSetting Crc(Stated<int> stated, int onAir)
    {
        var written = stated.Value switch { 0 => "none", 1 => "1 byte", _ => "2 bytes" };
        return End(stated, written) with { Text = stated.Value == onAir ? written : $"{written} (1 byte while acknowledging)" };
    }

    // A length that the payload does not fit into (RL6105) is no model.
    private static EndSetting Bytes(Stated<LengthMode> stated, int? bytes, Payload payload)
    {
        var end = End(stated, bytes is null ? "dynamic" : FormattableString.Invariant($"{bytes} byte{(bytes == 1 ? "" : "s")}"));
        return bytes < payload.Size ? end with { InManifest = null } : end;
    }

    private static string Number(int value) => FormattableString.Invariant($"{value}");

    private static string Truth(bool value) => value ? "true" : "false";

    private static EndSetting Present(Stated<bool> stated, bool value) => new(value ? "present" : "absent", null, stated.Place, !stated.IsDefault);

    private static EndSetting Exact(Payload payload) =>
        new(FormattableString.Invariant($"{payload.Size} byte{(payload.Size == 1 ? "" : "s")} of `{payload.Name}`"), null, payload.NamePlace, true);
}
