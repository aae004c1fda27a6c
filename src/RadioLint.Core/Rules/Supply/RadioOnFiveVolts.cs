using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2002: the radio hangs on a 5 V rail.</summary>
public sealed class RadioOnFiveVolts() : Rule(new(
    "RL2002", Severity.Error, "Radio on a 5 V rail", "3.6 V absolute maximum (nRF24L01+ Product Specification 1.0, Table 2)", "0.1")
{
    Silences = ["RL2001"],
})
{
    // A rail of 5 V may sag to 4.5 V and is one still; what lies between that and 3.6 V is RL2001's.
    private static readonly Voltage From = new(4_500);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Supply: { From.Value: not SupplySource.Battery } supply, Part.Supply: var limits }
                || RadioRail.Of(node) is not { } rail || rail.Nominal < From)
            {
                continue;
            }
            yield return At(
                node, OutsideOperatingRange.PlaceOf(supply),
                $"the radio of `{node.Label}` gets {rail.Nominal}, {rail.Nominal - limits.Absolute.Value.High} above its absolute maximum of {limits.Absolute.Value.High}; it may be damaged at once",
                $"put a 3.3 V regulator between, or use the board's 3.3 V pin if it can carry the radio");
        }
    }
}
