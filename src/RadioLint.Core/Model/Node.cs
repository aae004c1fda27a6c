using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>One node of the network. What did not read, or is not stated and has no default, is null.</summary>
public sealed record Node
{
    /// <summary>Its full name: `hive-2`.</summary>
    public required string Name { get; init; }

    /// <summary>The entry of `nodes` that it comes from: `hive`.</summary>
    public required string Entry { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Place NamePlace { get; init; }

    /// <summary>The map that states it.</summary>
    public required Place Place { get; init; }

    /// <summary>
    /// True for the first of nodes that are alike in all but name: what is wrong with it is wrong with all, and is said once.
    /// </summary>
    public bool SpeaksForGroup { get; init; } = true;

    /// <summary>How a message calls it: the entry's name when it speaks for several.</summary>
    public required string Label { get; init; }

    public string Identifier => Names.Identifier(Name);

    public Board? Board { get; init; }

    /// <summary>Where the board is named.</summary>
    public Place BoardPlace { get; init; }

    public required Wiring Wiring { get; init; }
    public Stated<Length>? Wires { get; init; }
    public SpiSetup? Spi { get; init; }
    public ImmutableArray<OtherUse> AlsoUses { get; init; } = ImmutableArray<OtherUse>.Empty;

    /// <summary>The map of `also-uses`; the node's when there is none.</summary>
    public Place AlsoUsesPlace { get; init; }

    public ImmutableArray<BusNeighbour> SharesSpi { get; init; } = ImmutableArray<BusNeighbour>.Empty;
    public required RadioUnit Radio { get; init; }

    /// <summary>The transceiver's profile; null when the part is not known.</summary>
    public RadioPart? Part { get; init; }

    public FrontEnd? FrontEnd { get; init; }
    public Stated<PowerLevel>? Power { get; init; }
    public Stated<string>? Test { get; init; }
    public Stated<Length>? Height { get; init; }
    public Stated<Between<Temperature>>? Temperature { get; init; }
    public Supply? Supply { get; init; }
    public Supply? BoardSupply { get; init; }
    public Battery? Battery { get; init; }
    public Stated<Duration>? RunsFor { get; init; }
    public Sleep? Sleep { get; init; }
    public Service? Service { get; init; }
    public Stated<int?>? Wifi { get; init; }
    public Host? Host { get; init; }
    public required Air Air { get; init; }

    /// <summary>Its own `pipes`; null when the plan assigns them.</summary>
    public ImmutableArray<OwnPipe>? OwnPipes { get; init; }

    /// <summary>The map of its own `pipes`; the node's when there is none.</summary>
    public Place PipesPlace { get; init; }

    public bool IsExternal { get; init; }
    public Measured? Measured { get; init; }
    public Stated<string>? PlaceText { get; init; }
    public Stated<DateTime>? Verified { get; init; }
    public Stated<int>? Number { get; init; }

    /// <summary>True when the manifest writes the key, on the node or in `all-nodes`, even if its value did not read.</summary>
    public required Func<string, bool> Writes { get; init; }

    /// <summary>The same object for all nodes that differ in nothing but their names.</summary>
    public required object Kind { get; init; }

    // A node is itself and nothing else, however alike two of them are.
    public bool Equals(Node? other) => ReferenceEquals(this, other);

    public override int GetHashCode() => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(this);

    public override string ToString() => Name;
}
