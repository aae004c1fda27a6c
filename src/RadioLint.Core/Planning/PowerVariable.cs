using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Rules.Range;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>One power step to choose: of an entry whose nodes state none, or of those that one line states.</summary>
/// <param name="Nodes">One of each kind, by name.</param>
/// <param name="Steps">That may be chosen, the least first; the one that is stated where it may not.</param>
/// <param name="Missing">The fact for want of which the default is kept; null where nothing is missing.</param>
internal sealed record PowerVariable(ImmutableArray<Node> Nodes, Stated<PowerLevel> Stated, ImmutableArray<PowerLevel> Steps, bool IsOpen, string? Missing)
{
    public Node First => Nodes[0];

    /// <summary>All of a network, by the name of their first node.</summary>
    public static ImmutableArray<PowerVariable> Of(Network network, Freedom freedom)
    {
        var missing = MissingFacts(network);
        var known = network.DistinctNodes.Where(node => node is { Part: not null, Power: not null } && LinkBudget.Conducted(node) is not null);
        return ImmutableArray.CreateRange(known
            .GroupBy(node => (Entry: freedom.Power(node) && node.Power!.IsDefault ? node.Entry : node.Power!.IsDefault ? node.Name : "", Place: node.Power.IsDefault ? default : node.Power.Place))
            .Select(same => One(network, freedom, ImmutableArray.CreateRange(same.OrderBy(node => node.Name, NaturalOrder.Instance)), missing))
            .OrderBy(variable => variable.First.Name, NaturalOrder.Instance));
    }

    private static PowerVariable One(Network network, Freedom freedom, ImmutableArray<Node> nodes, Dictionary<Node, string?> missing)
    {
        var stated = nodes[0].Power!;
        if (!nodes.All(freedom.Power))
            return new(nodes, stated, ImmutableArray.Create(stated.Value), false, null);
        var lawful = nodes[0].Part!.PowerSteps.Select(step => step.Step).Where(step => nodes.All(node => IsLawful(network, node, step))).OrderBy(step => step).ToList();
        // A fact that is missing at one link may ask for more than all the others.
        var what = nodes.Select(node => missing.TryGetValue(node, out var one) ? one : "a link").FirstOrDefault(one => one is not null);
        return new(nodes, stated, what is not null && lawful.Contains(stated.Value) ? ImmutableArray.Create(stated.Value) : ImmutableArray.CreateRange(lawful), true, what);
    }

    /// <summary>Whether a node may send at a step by the region's limit of peaks.</summary>
    public static bool IsLawful(Network network, Node node, PowerLevel step) =>
        node.Part!.Step(step) is not null && (Eirp.Of(node, step) is not { } radiated || radiated.Level <= network.Band.Limit);

    // For each node that takes part in a link: the first fact that a budget of one of its links lacks.
    private static Dictionary<Node, string?> MissingFacts(Network network)
    {
        var missing = new Dictionary<Node, string?>();
        foreach (var hop in network.DistinctHops.OrderBy(hop => hop.Label, NaturalOrder.Instance))
        {
            if (hop.Link.RidesInAcknowledgement)
                continue;
            var judged = new JudgedHop(hop, default, hop.IsAcknowledged && !hop.Link.IsBroadcast);
            Tell(hop.Sender, PathFacts.Missing(network, judged));
            if (judged.Returns)
                Tell(hop.Receiver, PathFacts.Missing(network, judged));
        }
        return missing;

        void Tell(Node node, string? what)
        {
            if (!missing.TryGetValue(node, out var known) || known is null)
                missing[node] = what;
        }
    }
}
