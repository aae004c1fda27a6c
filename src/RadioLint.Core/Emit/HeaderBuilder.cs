using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Emit;

/// <summary>From what concerns a node to its header.</summary>
internal static class HeaderBuilder
{
    /// <summary>The header of a node whose facts can be written in C.</summary>
    /// <param name="fingerprint">Of the network as this node's air sees it.</param>
    /// <param name="number">The node's number; null when it has none to tell.</param>
    public static NodeHeader Build(NodeFacts facts, string fingerprint, int? number)
    {
        var (node, image) = (facts.Node, facts.Image);
        var ident = C.Identifier(node.Name);
        var upper = C.Upper(ident);
        var digest = Fingerprint.OfNode(facts).ToDigest();
        var (aims, listen) = RoleTables.Of(facts, ident);
        return new()
        {
            Network = facts.Network.Name?.Value ?? "",
            Node = node.Name,
            Ident = ident,
            Manifest = LastPart(facts.Network.Source.Name),
            Board = BoardInWords(node),
            Radio = node.Part!.Name,
            Fingerprint = fingerprint,
            Digest = digest,
            Identity = Identity(upper, fingerprint, digest, facts.TellsNumber ? number : null),
            Planned = PlannedConstants.Of(facts, upper),
            States = States(facts, upper),
            Pins = PinConstants.Of(node, upper),
            Links = LinkConstants.Of(facts, upper),
            Table = FrameTable.Of(ident + "_frames", image.Frames),
            UnlockFeature = image.NeedsUnlock ? C.Byte(image[Registers.Feature]?[0] ?? 0) : null,
            RfSetupMask = C.Byte((byte)~node.Part.FreeBitsOf("RF_SETUP")),
            Aims = aims,
            Listens = facts.Plan.Listens,
            ListenTable = listen,
            Sends = LinkFunctions.Sends(facts, ident, aims, link => LengthOf(facts, ident, link.Payload, facts.SentLength(link))),
            Answers = LinkFunctions.Answers(facts, ident, link => LengthOf(facts, ident, link.Payload, link.Payload.Size)),
            HasTiedCe = node.Wiring.Ce?.Tie is PinTie.High,
            Payloads = [.. facts.Payloads.Select(one => PayloadCode.Of(one.Payload, IdentOf(facts, ident, one), one.Length))],
        };
    }

    // A payload that goes over pipes of two fixed lengths is told apart by the length; the shortest keeps the plain name.
    private static string IdentOf(NodeFacts facts, string ident, (Payload Payload, int Length) one)
    {
        var plain = $"{ident}_{C.Identifier(one.Payload.Name)}";
        return facts.Payloads.First(other => other.Payload.Name == one.Payload.Name).Length == one.Length
            ? plain
            : FormattableString.Invariant($"{plain}_in_{one.Length}");
    }

    private static string LengthOf(NodeFacts facts, string ident, Payload payload, int length) => C.Upper(IdentOf(facts, ident, (payload, length))) + "_LENGTH";

    private static ImmutableArray<Constant> Identity(string upper, string fingerprint, string digest, int? number)
    {
        var constants = ImmutableArray.Create(
            new Constant($"{upper}_FINGERPRINT", $"0x{fingerprint}uL", "network: equal on every node that must agree"),
            new Constant($"{upper}_DIGEST", $"0x{digest}uL", "this node: frames, pins, links, payloads"));
        return number is { } known
            ? constants.Add(new($"{upper}_NUMBER", C.Unsigned((ulong)known), "for payload fields that name the sender"))
            : constants;
    }

    private static ImmutableArray<Constant> States(NodeFacts facts, string upper)
    {
        const byte primRx = 0x01;
        var (down, up) = (facts.Image.Frames[0].Data[0], facts.Image.Frames[^1].Data[0]);
        var states = ImmutableArray.Create(new Constant($"{upper}_CONFIG_DOWN", C.Byte(down), "power down"));
        if (!facts.Outgoing.IsEmpty)
            states = states.Add(new($"{upper}_CONFIG_SEND", C.Byte((byte)(up & ~primRx)), "powered up, transmitter"));
        return facts.Plan.Listens ? states.Add(new($"{upper}_CONFIG_LISTEN", C.Byte((byte)(up | primRx)), "powered up, receiver")) : states;
    }

    private static string BoardInWords(Node node)
    {
        var board = node.Board!;
        var clock = board.Clock is { } at ? string.Create(CultureInfo.InvariantCulture, $" at {at.Value}") : "";
        return board.Chip.Length == 0 ? $"board {board.Name}{clock}" : $"a board built round the {board.Chip}{clock}";
    }

    private static string LastPart(string path) => path[(path.LastIndexOfAny(['/', '\\']) + 1)..];
}
