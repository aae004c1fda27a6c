using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Text;

namespace RadioLint.Rules.Supply;

/// <summary>RL2001: the radio's supply lies outside what it works at.</summary>
public sealed class OutsideOperatingRange() : Rule(new(
    "RL2001", Severity.Error, "Radio supply outside its operating range", "1.9 V to 3.6 V (nRF24L01+ Product Specification 1.0, Table 3)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Supply is null)
            {
                if (!node.Writes("supply"))
                    yield return Waits(node, "supply");
            }
            else if (RadioRail.Of(node) is not { } rail)
            {
                if (node.Supply.From is { Value: SupplySource.Regulator or SupplySource.Converter or SupplySource.Mains or SupplySource.Bench })
                    yield return Waits(node, "supply.output");
            }
            else if (node.Part is { Supply.Range: var range } && (rail.Nominal < range.Value.Low || rail.Nominal > range.Value.High))
            {
                var (excess, side) = rail.Nominal > range.Value.High ? (rail.Nominal - range.Value.High, "above") : (range.Value.Low - rail.Nominal, "below");
                yield return At(
                    node, PlaceOf(node.Supply),
                    $"the radio of `{node.Label}` gets {rail.Nominal}, {excess} {side} its range of {range.Value.Low} to {range.Value.High}",
                    $"feed it from a rail of 3.0 V or 3.3 V");
            }
        }
    }

    /// <summary>Where a supply says what it delivers.</summary>
    internal static Place PlaceOf(Model.Supply supply) => supply.Output?.Place ?? supply.Pin?.Place ?? supply.Part?.Place ?? supply.From?.Place ?? supply.Place;
}
