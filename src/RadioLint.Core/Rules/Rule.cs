using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules;

/// <summary>One thing that can be wrong with a network. A rule looks at the model alone: no text, no settings, no other rule's findings.</summary>
public abstract class Rule(Descriptor descriptor)
{
    public Descriptor Descriptor { get; } = descriptor;

    /// <summary>Everything of this kind that is wrong.</summary>
    public abstract IEnumerable<Finding> Check(Network network);

    // FormattableString, not string: figures in a message must not follow the user's locale.

    /// <summary>A finding about no node or link in particular.</summary>
    protected Finding At(Place place, FormattableString message, FormattableString help, params Fix[] fixes) =>
        new(Descriptor, place, FormattableString.Invariant(message), FormattableString.Invariant(help)) { Fixes = ImmutableArray.Create(fixes) };

    /// <summary>A finding about a node; its subject is the node, so rules that this one silences stay quiet about it.</summary>
    protected Finding At(Node node, Place place, FormattableString message, FormattableString help, params Fix[] fixes) =>
        At(place, message, help, fixes) with { Subject = node, NodeNames = NamesOf(node) };

    /// <summary>A finding about a link; its subject is the hop.</summary>
    protected Finding At(Hop hop, Place place, FormattableString message, FormattableString help, params Fix[] fixes) =>
        At(place, message, help, fixes) with
        {
            Subject = hop,
            LinkName = hop.Link.Name,
            NodeNames = NamesOf(hop.Sender).AddRange(NamesOf(hop.Receiver)),
        };

    /// <summary>A note that the rule cannot judge a node before a fact is stated; gathered into one RL8304 a node.</summary>
    /// <param name="key">The key that would state it, as a path below the node: `radio.antenna`.</param>
    protected Finding Waits(Node node, string key) =>
        new(Descriptor, node.NamePlace, "", "") { Missing = new(node, key), NodeNames = NamesOf(node) };

    /// <summary>An edit that a person must accept.</summary>
    protected static Fix Offer(string title, Place place, string newText) =>
        new(FixGrade.Offered, title, ImmutableArray.Create(Edit.Value(place, newText)));

    /// <summary>Edits that belong together and that a person must accept.</summary>
    protected static Fix Offer(string title, IEnumerable<Edit> edits) => new(FixGrade.Offered, title, ImmutableArray.CreateRange(edits));

    /// <summary>An edit of wording or layout only.</summary>
    protected static Fix Safe(string title, Place place, string newText) =>
        new(FixGrade.Safe, title, ImmutableArray.Create(Edit.Value(place, newText)));

    /// <summary>Another place that has a part in the finding.</summary>
    protected static ImmutableArray<RelatedPlace> See(Place place, FormattableString message) =>
        ImmutableArray.Create(new RelatedPlace(place, FormattableString.Invariant(message)));

    private static ImmutableArray<string> NamesOf(Node node) =>
        node.Name == node.Entry ? ImmutableArray.Create(node.Name) : ImmutableArray.Create(node.Name, node.Entry);
}
