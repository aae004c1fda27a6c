using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Text;

namespace RadioLint.Model;

/// <summary>A whole network as its manifest states it, names resolved and defaults filled in.</summary>
public sealed class Network
{
    private ImmutableArray<Node> distinctNodes;
    private ImmutableArray<Hop> distinctHops;
    private ILookup<string, Hop>? byPayload;

    public required SourceText Source { get; init; }
    public required Place Place { get; init; }
    public Stated<string>? Name { get; init; }

    /// <summary>The country code as written; null when none is.</summary>
    public Stated<string>? RegionCode { get; init; }

    /// <summary>True when the manifest writes `region`, even if its value did not read.</summary>
    public bool WritesRegion { get; init; }

    /// <summary>The band rule that holds there; the narrowest one when no country, or an unlisted one, is named.</summary>
    public required BandRule Band { get; init; }

    public Stated<string>? Site { get; init; }
    public Stated<Setting>? Setting { get; init; }

    /// <summary>Other networks that name the same site, where they are checked together.</summary>
    public ImmutableArray<SiteNetwork> AtSite { get; internal set; } = ImmutableArray<SiteNetwork>.Empty;

    /// <summary>Other networks of this kind: the declared neighbours, then those of the site.</summary>
    public IEnumerable<Stated<OtherNetwork>> OtherNetworks => Neighbours.Networks.Concat(AtSite.SelectMany(other => other.Airs));

    public required Air Air { get; init; }
    public required Neighbours Neighbours { get; init; }

    public ImmutableArray<Stated<SurveyFile>> Survey { get; init; } = ImmutableArray<Stated<SurveyFile>>.Empty;

    /// <summary>In the file's order; groups member by member.</summary>
    public required ImmutableArray<Node> Nodes { get; init; }

    public required ImmutableArray<Link> Links { get; init; }

    /// <summary>Each sender with each receiver of each link.</summary>
    public required ImmutableArray<Hop> Hops { get; init; }

    public required ImmutableArray<Payload> Payloads { get; init; }
    public required RuleSettings Rules { get; init; }
    public Change? Change { get; init; }

    /// <summary>The plan in the field, as the manifest that `change` names states it; null when none is named or it cannot be read.</summary>
    public Network? Before { get; init; }

    /// <summary>The entries of `change.order`, each with the nodes that it means.</summary>
    public ImmutableArray<Stated<ImmutableArray<Node>>> ChangeOrder { get; init; } = ImmutableArray<Stated<ImmutableArray<Node>>>.Empty;

    /// <summary>Names of the manifest's own boards that no node has and no other board is based on.</summary>
    public ImmutableArray<LocatedScalar> UnusedBoards { get; init; } = ImmutableArray<LocatedScalar>.Empty;

    /// <summary>What each node's radio must hold, by node.</summary>
    public required RadioPlan Plan { get; init; }

    /// <summary>True when nothing was ever emitted from this manifest, or its record is gone; false where nobody could look.</summary>
    public bool LacksRecord { get; internal set; }

    /// <summary>What was last emitted; null when that is not known.</summary>
    public IssuedRecord? Issued => Record?.Value;

    /// <summary>Read when first asked for: a record is as large as its manifest.</summary>
    internal Lazy<IssuedRecord?>? Record { private get; set; }

    /// <summary>One node of each kind: rules about a single node look at these.</summary>
    public ImmutableArray<Node> DistinctNodes => distinctNodes.IsDefault
        ? distinctNodes = ImmutableArray.CreateRange(Nodes.Where(node => node.SpeaksForGroup))
        : distinctNodes;

    /// <summary>One hop of each kind: rules about a link look at these.</summary>
    public ImmutableArray<Hop> DistinctHops => distinctHops.IsDefault
        ? distinctHops = ImmutableArray.CreateRange(Hops.Where(hop => hop.SpeaksForGroup))
        : distinctHops;

    /// <summary>One hop of each kind that carries a payload, those in acknowledgements too.</summary>
    public IEnumerable<Hop> HopsOf(Payload payload) =>
        (byPayload ??= DistinctHops.Where(hop => hop.Link.Payload is not null).ToLookup(hop => hop.Link.Payload!.Name, StringComparer.Ordinal))[payload.Name];
}
