using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Payloads;

/// <summary>Where one more field may be offered: not in a payload of somebody else's firmware, and not past what a packet or a fixed length holds.</summary>
internal static class FurtherField
{
    private const int PacketRoom = 32;

    /// <summary>Behind the last field; nothing where there is no room, or the name is taken.</summary>
    public static Edit[] Last(Network network, Payload payload, string name, string type, int size) =>
        HasRoom(network, payload, name, size) && KeyEdit.CanFollow(payload.Fields[payload.Fields.Length - 1].ValuePlace)
            ? InOrder(payload, KeyEdit.After(payload.FieldsPlace, payload.Fields[payload.Fields.Length - 1].ValuePlace, name, type), names => KeyEdit.ItemAfter(names[names.Length - 1].Place, name))
            : [];

    /// <summary>Before the first field; nothing likewise.</summary>
    public static Edit[] First(Network network, Payload payload, string name, string type, int size) =>
        HasRoom(network, payload, name, size)
            ? InOrder(payload, KeyEdit.Before(payload.FieldsPlace, payload.Fields[0].Place, name, type), names => KeyEdit.ItemBefore(names[0].Place, name))
            : [];

    /// <summary>True when so many bytes more would still be sent, taken and told from others by firmware that is emitted here.</summary>
    public static bool HasRoom(Network network, Payload payload, int size)
    {
        if (!payload.HasKnownSize || payload.IsNatural)
            return false;
        foreach (var hop in network.HopsOf(payload))
        {
            if (hop.Sender.IsExternal || hop.Receiver.IsExternal || payload.Size + size > Room(hop, payload) || IsLikeAnother(network, hop, payload.Size + size) || IsAsLongAsAnother(network, hop))
                return false;
        }
        return payload.Size + size <= PacketRoom;
    }

    private static bool HasRoom(Network network, Payload payload, string name, int size) =>
        !payload.Fields.IsEmpty && payload.Fields.All(field => field.Name != name) && HasRoom(network, payload, size);

    // Where the fields are named in their order, the name goes there too; a list in block style is left to its owner.
    private static Edit[] InOrder(Payload payload, Edit field, Func<ImmutableArray<Stated<string>>, Edit> named) =>
        payload.Order is not { Value: { IsOpen: false } order } written ? [field]
        : written.Place.Source.Text[written.Place.Start] == '[' ? [field, named(order.Names)]
        : [];

    // Payloads of one pipe may be told apart by their lengths alone (RL6202).
    private static bool IsLikeAnother(Network network, Hop hop, int size) => network.Plan.Of(hop.Receiver).Receives
        .Any(other => other.Pipe == hop.Pipe && other.Link.Payload is { } payload && payload != hop.Link.Payload && payload.Size == size);

    // Where lengths are exact, all payloads of one pipe have one (RL4202).
    private static bool IsAsLongAsAnother(Network network, Hop hop) =>
        (hop.Sender.Air.PayloadLength?.Value.Kind is LengthKind.Exact || hop.Receiver.Air.PayloadLength?.Value.Kind is LengthKind.Exact)
        && network.Plan.Of(hop.Receiver).Receives.Any(other => other.Pipe == hop.Pipe && other.Link.Payload != hop.Link.Payload);

    // A pipe whose firmware has its length already takes no longer packet.
    private static int Room(Hop hop, Payload payload) =>
        hop.Sender.Air.PayloadLength?.Value is { Kind: LengthKind.Fixed } sent ? sent.Bytes
        : hop.Receiver.OwnPipes?.FirstOrDefault(pipe => pipe.Number == hop.Pipe)?.PayloadLength?.Value.Kind is LengthKind.Fixed ? payload.Size
        : PacketRoom;
}
