using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>One entry of `links`.</summary>
public sealed class Link
{
    public required Place Place { get; init; }

    /// <summary>Senders as written, for messages and `allow`.</summary>
    public required string FromText { get; init; }

    public required string ToText { get; init; }
    public required ImmutableArray<Node> From { get; init; }
    public required ImmutableArray<Node> To { get; init; }
    public Place FromPlace { get; init; }
    public Place ToPlace { get; init; }
    public Stated<string>? PayloadName { get; init; }
    public Payload? Payload { get; init; }
    public Stated<Duration>? Every { get; init; }
    public Stated<Jitter>? Jitter { get; init; }
    public Stated<Offset>? Offset { get; init; }
    public Stated<EventRate>? Events { get; init; }
    public Stated<Duration>? Spacing { get; init; }

    /// <summary>True when it rides back in the acknowledgement of the opposite link.</summary>
    public Stated<bool>? RidesBack { get; init; }

    public Stated<bool>? Acknowledge { get; init; }
    public Stated<bool>? Broadcast { get; init; }
    public Stated<bool>? MustArrive { get; init; }
    public Stated<Duration>? Within { get; init; }
    public Stated<Duration>? LongestGap { get; init; }
    public Stated<int>? Message { get; init; }
    public Stated<WrittenAddress>? Address { get; init; }
    public Stated<PipeChoice>? Pipe { get; init; }
    public ImmutableArray<Stated<string>> Via { get; init; } = ImmutableArray<Stated<string>>.Empty;
    public Stated<Between<Length>>? Distance { get; init; }
    public ImmutableArray<Stated<Obstacle>> Through { get; init; } = ImmutableArray<Stated<Obstacle>>.Empty;
    public Stated<Setting>? Setting { get; init; }

    public bool IsBroadcast => Broadcast?.Value ?? false;

    public bool RidesInAcknowledgement => RidesBack?.Value ?? false;

    /// <summary>`hive shed`: how an `allow` entry names it.</summary>
    public string Name => $"{FromText} {ToText}";
}

/// <summary>One sender and one receiver of a link, with what the plan gives them.</summary>
public sealed class Hop
{
    public required Link Link { get; init; }
    public required Node Sender { get; init; }
    public required Node Receiver { get; init; }

    /// <summary>True for the first of hops that are alike in all but the members' names.</summary>
    public bool SpeaksForGroup { get; init; } = true;

    /// <summary>For a payload that rides back: the hop whose acknowledgement carries it.</summary>
    public Hop? Carrier { get; internal set; }

    /// <summary>The receiver's pipe; null when no pipe is left or open for it.</summary>
    public int? Pipe { get; internal set; }

    /// <summary>Where the sender sends; null when it cannot be derived.</summary>
    public Address? Address { get; internal set; }

    public bool IsAddressDerived { get; internal set; }

    /// <summary>Where the address is written; the link when it is derived.</summary>
    public Place AddressPlace => Link.Address?.Place ?? Link.Place;

    /// <summary>Whether the sender asks for an acknowledgement.</summary>
    public bool IsAcknowledged => Link.Acknowledge?.Value ?? Sender.Air.Acknowledge?.Value ?? true;

    /// <summary>True when the packet itself says that it wants no acknowledgement although its pipe gives one.</summary>
    public bool IsSentWithoutAcknowledge => !IsAcknowledged && (Sender.Air.Acknowledge?.Value ?? true);

    /// <summary>The payloads that may ride back in its acknowledgement.</summary>
    public ImmutableArray<Hop> Riders { get; internal set; } = ImmutableArray<Hop>.Empty;

    public string Label => $"{Sender.Label} to {Receiver.Label}";
}
