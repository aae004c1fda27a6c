using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>How a message is cut into packets.</summary>
internal static class MessageParts
{
    /// <summary>Bytes of a message in one packet: all but what has a role or is constant.</summary>
    public static int Room(Payload payload) => payload.Fields.Where(field => field.Role is null && field.Constant is null).Sum(field => field.Size);

    /// <summary>Packets that a message of so many bytes takes.</summary>
    public static int Count(int bytes, Payload payload) => (bytes + Math.Max(1, Room(payload)) - 1) / Math.Max(1, Room(payload));
}
