using System.Security.Cryptography;
using System.Text;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>
/// A number from 1 to 254 for every node, for payload fields that name the sender: as stated, else from the node's name, so that one
/// more node changes another's only where their names meet in the same number. 0 and 255 are what empty memory holds.
/// </summary>
public static class NodeNumbers
{
    private const int Highest = 254;

    /// <summary>By node; a node goes without when all numbers are taken.</summary>
    public static IReadOnlyDictionary<Node, int> Of(Network network)
    {
        var numbers = new Dictionary<Node, int>();
        var taken = new HashSet<int>();
        foreach (var node in network.Nodes)
        {
            if (node.Number is { Value: >= 1 and <= Highest } stated)
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

    private static int Wanted(string network, string node)
    {
        var bytes = Encoding.UTF8.GetBytes($"radiolint number 1\n{network}\n{node}");
        var hash = SHA256.HashData(bytes);
        return (((hash[0] << 16) | (hash[1] << 8) | hash[2]) % Highest) + 1;
    }
}
