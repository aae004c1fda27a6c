using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Fleet;

/// <summary>RL8303: nodes are in the field, and what they were flashed with is recorded nowhere.</summary>
public sealed class NothingRecorded() : Rule(new(
    "RL8303", Severity.Info, "No record of what was emitted", "own rule: where nodes are verified, or a change is planned, `NAME.radio.issued.json` lies beside the manifest", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // A plan on paper has nothing to record yet.
        if (!network.LacksRecord || FieldPlace(network) is not var (place, reason))
            yield break;
        yield return At(
            place,
            $"{reason}, and there is no record of what was emitted for them",
            $"run `radiolint emit`, and commit the record that it writes beside the manifest");
    }

    private static (Place Place, string Reason)? FieldPlace(Network network)
    {
        if (network.DistinctNodes.Where(node => node is { IsExternal: false, Verified: not null }).OrderBy(node => node.Label, NaturalOrder.Instance).FirstOrDefault() is { } node)
            return (node.Verified!.Place, $"`{node.Label}` was verified, so nodes are in the field");
        return network.Change is { } change ? (change.Place.FirstLine, "a change is planned, so nodes are in the field") : null;
    }
}
