using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Fleet;

/// <summary>RL8302: some nodes say which delivery their module came with, and others do not.</summary>
public sealed class BatchUnknown() : Rule(new(
    "RL8302", Severity.Info, "Module batch unknown", "own rule: where one node of the network states `batch`, all state it", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var own = network.DistinctNodes.Where(node => !node.IsExternal).OrderBy(node => node.Label, NaturalOrder.Instance).ToList();
        if (own.Find(node => node.Radio.Batch is not null) is not { } example || own.Find(node => node.Radio.Batch is null) is not { } first)
            yield break;
        var others = own.Count(node => node.Radio.Batch is null) - 1;
        yield return At(
            first, first.NamePlace,
            $"`{first.Label}`{(others == 0 ? " does" : FormattableString.Invariant($" and {others} more do"))} not state `radio.batch`, as `{example.Label}` does; modules of one delivery share their faults",
            $"add `batch:` under `radio` with the delivery that its module came with") with
        {
            Related = See(example.Radio.Batch!.Place, $"`{example.Label}` states it here"),
        };
    }
}
