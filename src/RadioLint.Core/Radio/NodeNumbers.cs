using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>
/// A number from 1 to 254 for every node, for payload fields that name the sender: as stated, else from the node's name, so that one
/// more node changes another's only where their names meet in the same number. 0 and 255 are what empty memory holds.
/// </summary>
public static class NodeNumbers
{
    public const int Lowest = 1;
    public const int Highest = 254;

    /// <summary>By node; a node goes without when all numbers are taken.</summary>
    public static IReadOnlyDictionary<Node, int> Of(Network network)
    {
        var numbers = new Dictionary<Node, int>();
        var taken = new HashSet<int>();
        foreach (var node in network.Nodes)
        {
            if (node.Number is { Value: >= Lowest and <= Highest } stated)
            {
                numbers[node] = stated.Value;
                taken.Add(stated.Value);
            }
        }
        foreach (var node in network.Nodes.Where(node => node.Number is null).OrderBy(node => node.Name, NaturalOrder.Instance))
        {
            if (taken.Count == Highest)
                break;
            var number = Wanted(network.Name?.Value ?? "", node.Name);
            while (!taken.Add(number))
                number = (number % Highest) + 1;
            numbers[node] = number;
        }
        return numbers;
    }

    private static int Wanted(string network, string node) => (int)(NameHash.Of($"{network}\n{node}\nradiolint number 2") % Highest) + 1;
}
