namespace Proof;

/// <summary>What this project does not judge; a test that meets it must say so.</summary>
public sealed class UnjudgedException(string what) : Exception(what);

/// <summary>A network, as far as its radios are concerned.</summary>
public sealed record PlainNetwork(string Name, IReadOnlyList<PlainNode> Nodes, IReadOnlyList<PlainLink> Links);

/// <summary>A node's radio.</summary>
/// <param name="Entry">The entry of `nodes` that it belongs to: its own name, or the group's.</param>
public sealed record PlainNode(string Name, string Entry)
{
    public string Part { get; init; } = "nRF24L01+";
    public int Channel { get; init; }
    public string Rate { get; init; } = "1 Mbps";
    public int Width { get; init; } = 5;
    public int Crc { get; init; } = 2;
    public bool Acknowledge { get; init; } = true;

    /// <summary>`dynamic`, `exact`, or bytes.</summary>
    public string Length { get; init; } = "dynamic";

    /// <summary>What the manifest says of EN_DYN_ACK; null when it says nothing.</summary>
    public bool? NoAcknowledge { get; init; }

    /// <summary>Delays as written, in microseconds; none when they are open.</summary>
    public IReadOnlyList<int> Delays { get; init; } = [];
    public int Limit { get; init; } = 15;
    public string Power { get; init; } = "0 dBm";
    public string Test { get; init; } = "none";

    /// <summary>What may pull IRQ low; null when nothing is said, which is all.</summary>
    public IReadOnlyList<string>? IrqFor { get; init; }
    public bool HasTiedCe { get; init; }

    /// <summary>Its `pipes`; null when they come from the links.</summary>
    public IReadOnlyList<PlainPipe>? Pipes { get; init; }
    public int? FixedLength => Length is "dynamic" or "exact" ? null : Quantities.Count(Length);
}

/// <summary>A pipe as a node's own `pipes` have it; no address when it is closed.</summary>
public sealed record PlainPipe(int Number, string? Address, bool? Acknowledge, string? Length);

/// <summary>An entry of `links`.</summary>
public sealed record PlainLink(string FromText, IReadOnlyList<PlainNode> From, IReadOnlyList<PlainNode> To, string Payload, int Bytes)
{
    public bool? Acknowledge { get; init; }
    public bool Broadcasts { get; init; }
    public bool RidesBack { get; init; }

    /// <summary>Bytes in hex as on the air.</summary>
    public string? Address { get; init; }
    public int? Pipe { get; init; }
}

/// <summary>One sender and one receiver of a link, with what the plan gives them.</summary>
public sealed class PlainHop(PlainLink link, PlainNode sender, PlainNode receiver)
{
    public PlainLink Link => link;
    public PlainNode Sender => sender;
    public PlainNode Receiver => receiver;

    /// <summary>Bytes in hex as on the air.</summary>
    public string? Address { get; set; }
    public int? Pipe { get; set; }

    /// <summary>Payloads that ride back in its acknowledgements.</summary>
    public List<PlainHop> Riders { get; } = [];

    /// <summary>The hop whose acknowledgement carries this one.</summary>
    public PlainHop? Carrier { get; set; }

    public bool IsAcknowledged => link.Acknowledge ?? sender.Acknowledge;

    /// <summary>The packet itself says that it wants no acknowledgement.</summary>
    public bool SaysNo => !IsAcknowledged && sender.Acknowledge;

    /// <summary>Its packets have the control field (7.3.3 p28, 7.9 p49).</summary>
    public bool HasControl => IsAcknowledged || SaysNo;

    public int SentBytes => sender.FixedLength ?? link.Bytes;
}

/// <summary>A pipe that is open.</summary>
public sealed record PlainOpenPipe(int Number, string Address, bool Acknowledges, int? FixedLength);
