using RadioLint.Manifest;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>Nodes with a certain check sum, each with the length that agrees with the other ends of its links.</summary>
internal static class CheckLengths
{
    /// <param name="bytes">As stated.</param>
    /// <returns>Wanted: what to write where it is stated; null where the other ends do not agree among each other.</returns>
    public static IEnumerable<(Node Node, Stated<int> Crc, string? Wanted)> Stated(Network network, int bytes)
    {
        foreach (var same in network.DistinctNodes.Where(node => node.Air.Crc?.Value == bytes).GroupBy(node => node.Air.Crc!.Place))
        {
            // One line may state it for many nodes: they change together.
            var others = same.SelectMany(node => Peers(network, node)).Where(peer => peer.Air.Crc?.Place != same.Key).Select(peer => network.Plan.Of(peer).CheckBytes ?? 0).Where(length => length > 0).Distinct().ToList();
            var wanted = others.Count == 0 ? "2 bytes" : others.Count > 1 ? null : others[0] == 1 ? "1 byte" : "2 bytes";
            foreach (var node in same)
                yield return (node, node.Air.Crc!, wanted);
        }
    }

    private static IEnumerable<Node> Peers(Network network, Node node)
    {
        var plan = network.Plan.Of(node);
        return plan.Sends.Select(hop => hop.Receiver).Concat(plan.Receives.Select(hop => hop.Sender));
    }
}
