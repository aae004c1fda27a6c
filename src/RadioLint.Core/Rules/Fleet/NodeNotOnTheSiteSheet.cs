using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Fleet;

/// <summary>RL8301: some nodes say where they hang or when they were last verified, and others do not.</summary>
public sealed class NodeNotOnTheSiteSheet() : Rule(new(
    "RL8301", Severity.Info, "Node without place or date of verification", "own rule: what one node of the network states, all state", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // Whoever has begun to keep such a list wants it whole; who has not is left alone.
        return Lacking(network, "place", node => node.PlaceText?.Place)
            .Concat(Lacking(network, "verified", node => node.Verified?.Place));
    }

    private IEnumerable<Finding> Lacking(Network network, string key, Func<Node, Place?> stated)
    {
        var own = network.DistinctNodes.Where(node => !node.IsExternal).OrderBy(node => node.Label, NaturalOrder.Instance).ToList();
        if (own.FirstOrDefault(node => stated(node) is not null) is not { } example || own.FirstOrDefault(node => stated(node) is null) is not { } first)
            yield break;
        var others = own.Count(node => stated(node) is null) - 1;
        yield return At(
            first, first.NamePlace,
            $"`{first.Label}`{(others == 0 ? " does" : FormattableString.Invariant($" and {others} more do"))} not state `{key}`, as `{example.Label}` does",
            $"add `{key}:` with {(key == "place" ? "where it hangs" : "the day when its registers were last compared with the plan")}") with
        {
            Related = See(stated(example)!.Value, $"`{example.Label}` states it here"),
        };
    }
}
