using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Radio;

/// <summary>A receive pipe of a node's radio.</summary>
/// <param name="Number">0 to 5.</param>
/// <param name="Address">What it answers to, in full; null when it is not known.</param>
/// <param name="Place">Where it is stated; the link that needs it when it is planned.</param>
public sealed record OpenPipe(int Number, Address? Address, Place Place)
{
    public bool Acknowledges { get; init; } = true;

    /// <summary>Null: dynamic.</summary>
    public int? FixedLength { get; init; }

    /// <summary>The hops that arrive here; none on a pipe that nobody sends to.</summary>
    public ImmutableArray<Hop> Hops { get; init; } = ImmutableArray<Hop>.Empty;
}

/// <summary>A sender's repetitions.</summary>
/// <param name="Delay">Time before a repetition.</param>
/// <param name="Limit">Repetitions before the radio gives up.</param>
/// <param name="IsPlanned">True when the manifest leaves the delay open.</param>
/// <param name="Classes">The collision-proof delays that it was chosen from; empty when written.</param>
public sealed record RetryPlan(Duration Delay, int Limit, bool IsPlanned, ImmutableArray<Duration> Classes)
{
    /// <summary>Where the delay is written; null when it is planned.</summary>
    public Place? Written { get; init; }
}

/// <summary>What one node's radio must hold.</summary>
public sealed class NodePlan
{
    private Made? image;
    private bool? hasControlField;

    public required Node Node { get; init; }

    /// <summary>Packets of its own that it sends, the one that the register image is set up for first.</summary>
    public required ImmutableArray<Hop> Sends { get; init; }

    /// <summary>Packets that arrive.</summary>
    public required ImmutableArray<Hop> Receives { get; init; }

    /// <summary>Payloads that it returns in acknowledgements.</summary>
    public required ImmutableArray<Hop> Returns { get; init; }

    /// <summary>Its receive pipes in order; pipe 0 is among them only when it listens there.</summary>
    public required ImmutableArray<OpenPipe> Pipes { get; init; }

    /// <summary>Null for a node that sends nothing acknowledged, or while the values it needs are open.</summary>
    public RetryPlan? Retry { get; init; }

    /// <summary>True when it waits for packets between its own.</summary>
    public bool Listens => !Pipes.IsEmpty;

    /// <summary>True when its own `pipes` close pipe 0, which acknowledgements come to.</summary>
    public bool HasClosedPipe0 => Node.OwnPipes is { } own && own.Any(pipe => pipe is { Number: 0, IsClosed: true });

    public bool SendsAcknowledged => Sends.Any(hop => hop.IsAcknowledged);

    /// <summary>
    /// True when its packets carry the control field, sent and expected alike: the chip's protocol engine is on unless every EN_AA bit
    /// and ARC are 0 (nRF24L01+ Product Specification 1.0, 7.9 p49).
    /// </summary>
    public bool HasControlField => hasControlField ??= Pipes.Any(pipe => pipe.Acknowledges) || AsksForAcknowledge;

    /// <summary>True when its own packets need ENAA_P0: those that are acknowledged, and those that say themselves that they are not.</summary>
    public bool AsksForAcknowledge => Sends.Any(hop => hop.IsAcknowledged || hop.IsSentWithoutAcknowledge);

    /// <summary>CRC bytes on air: while any EN_AA bit is 1 the chip forces a CRC on, of one byte unless two are asked for (Table 28 p57).</summary>
    public int? CheckBytes => Node.Air.Crc?.Value is { } stated ? stated == 0 && HasControlField ? 1 : stated : null;

    /// <summary>The whole register image; null while a value that it needs is open or wrong. Made when first asked for.</summary>
    public RegisterImage? Image => (image ??= new(ImageBuilder.Build(this))).Value;

    private sealed record Made(RegisterImage? Value);
}

/// <summary>The plan of every node.</summary>
public sealed class RadioPlan(ImmutableArray<NodePlan> nodes)
{
    private readonly Dictionary<Node, NodePlan> byNode = nodes.ToDictionary(plan => plan.Node);

    /// <summary>In the order of the network's nodes.</summary>
    public ImmutableArray<NodePlan> Nodes => nodes;

    public NodePlan Of(Node node) => byNode[node];
}
