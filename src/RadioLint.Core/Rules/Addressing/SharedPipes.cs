using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Payloads;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>A payload that several nodes send to one pipe.</summary>
/// <param name="Hops">From each of them, in the order of the links.</param>
internal sealed record SharedPayload(Node Receiver, OpenPipe Pipe, Payload Payload, IReadOnlyList<Hop> Hops)
{
    public bool Has(string role) => Payload.Fields.Any(field => field.Role == role);

    public bool IsAcknowledged => Pipe.Acknowledges && Hops.Any(hop => hop.IsAcknowledged);

    public ImmutableArray<RelatedPlace> Links => ImmutableArray.CreateRange(
        Hops.Select(hop => hop.Link).Distinct().Select(link => new RelatedPlace(link.FromPlace, $"it is sent to {Receiver.Label} here")));

    public string Senders()
    {
        var names = Hops.Select(hop => hop.Sender).Distinct().Select(node => $"`{node.Name}`").ToList();
        return names.Count == 2
            ? $"{names[0]} and {names[1]}"
            : FormattableString.Invariant($"{names[0]}, {names[1]} and {names.Count - 2} more");
    }

    /// <summary>Puts fields of a byte before the others, where the payload is written as a plain map and has room for them.</summary>
    public Edit? WithFields(Network network, params string[] names)
    {
        var first = Payload.Fields[0];
        var between = Payload.Place.Contains(first.Place) ? first.Place.Source.Text.Substring(Payload.Place.Start, first.Place.Start - Payload.Place.Start) : ":";
        if (between.Contains(':') || !FurtherField.HasRoom(network, Payload, names.Length)
            || Payload.Fields.Any(field => names.Contains(field.Name, StringComparer.Ordinal)))
        {
            return null;
        }
        var edits = names.Select(name => KeyEdit.Before(Payload.Place, first.Place, name, "uint8").NewText);
        return new(first.Place with { Length = 0 }, string.Concat(edits));
    }
}

/// <summary>Pipes that more than one node sends to.</summary>
internal static class SharedPipes
{
    public static IEnumerable<OpenPipe> At(NodePlan plan) => plan.Pipes.Where(pipe => pipe.Hops.Any(hop => !hop.Sender.Equals(pipe.Hops[0].Sender)));

    /// <summary>Payloads that could be read whole and come from several senders on one pipe.</summary>
    public static IEnumerable<SharedPayload> Payloads(Network network)
    {
        foreach (var plan in network.Plan.Nodes.Where(plan => plan.Receives.Length > 1).OrderBy(plan => plan.Node.Name, NaturalOrder.Instance))
        {
            foreach (var pipe in At(plan))
            {
                foreach (var sent in pipe.Hops.GroupBy(hop => hop.Link.PayloadName?.Value, StringComparer.Ordinal))
                {
                    var hops = sent.ToList();
                    if (hops[0].Link.Payload is { HasKnownSize: true, Fields.IsEmpty: false } payload && hops.Exists(hop => !hop.Sender.Equals(hops[0].Sender)))
                        yield return new(plan.Node, pipe, payload, hops);
                }
            }
        }
    }
}
