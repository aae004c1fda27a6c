using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4210: a node's number is another's too, or one that empty memory holds.</summary>
public sealed class NodeNumberTaken() : Rule(new(
    "RL4210", Severity.Error, "Node number that is taken or reserved",
    "1 to 254, each once; 0 is what cleared memory reads, 255 what erased memory reads (own rule)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var stated = network.Nodes.Where(node => node.Number is not null).OrderBy(node => node.Name, NaturalOrder.Instance).ToList();
        var free = new Lazy<Queue<int>>(() => Free(network));
        foreach (var alike in stated.GroupBy(node => node.Number!.Value))
        {
            var first = alike.First();
            if (alike.Key is < NodeNumbers.Lowest or > NodeNumbers.Highest)
            {
                foreach (var node in alike)
                    yield return Judge(node, free, Outside(node));
                continue;
            }
            foreach (var place in alike.GroupBy(node => node.Number!.Place))
            {
                var count = place.Count();
                if (count > 1)
                {
                    yield return At(
                        place.First(), place.Key,
                        $"{count} nodes, `{place.First().Name}` to `{place.Last().Name}`, all have number {alike.Key}",
                        $"leave `number` out for a group: each member then has one of its own, derived from its name");
                }
                else if (place.Key != first.Number!.Place)
                {
                    yield return Judge(place.First(), free, $"number {alike.Key} of `{place.First().Label}` is that of `{first.Label}` too") with
                    { Related = See(first.Number.Place, $"number {alike.Key} of {first.Label} is here") };
                }
            }
        }
    }

    private static FormattableString Outside(Node node)
    {
        var number = node.Number!.Value;
        return number switch
        {
            0 => $"number 0 of `{node.Label}` is what cleared memory reads; numbers are {NodeNumbers.Lowest} to {NodeNumbers.Highest}",
            255 => $"number 255 of `{node.Label}` is what erased memory reads; numbers are {NodeNumbers.Lowest} to {NodeNumbers.Highest}",
            _ => $"number {number} of `{node.Label}` is outside {NodeNumbers.Lowest} to {NodeNumbers.Highest}",
        };
    }

    private Finding Judge(Node node, Lazy<Queue<int>> free, FormattableString message)
    {
        // Members of a group have theirs from one line.
        int? next = node.Name == node.Entry && free.Value.Count > 0 ? free.Value.Dequeue() : null;
        return At(
            node, node.Number!.Place, message,
            $"use a number that no other node has, or leave `number` out to have it derived from the name",
            next is null ? [] : [Offer(FormattableString.Invariant($"Use {next}"), node.Number.Place, FormattableString.Invariant($"{next}"))]);
    }

    private static Queue<int> Free(Network network) =>
        new(Enumerable.Range(NodeNumbers.Lowest, NodeNumbers.Highest).Except(NodeNumbers.Of(network).Values));
}
