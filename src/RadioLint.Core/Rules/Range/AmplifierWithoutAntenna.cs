using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Range;

/// <summary>RL7203: an amplifier that sends into nothing gets all its power back.</summary>
public sealed class AmplifierWithoutAntenna() : Rule(new(
    "RL7203", Severity.Error, "Amplified module without antenna",
    "an open output returns all power to the amplifier; never send without an antenna or a dummy load (E01-ML01DP5 module specification 1.4; SAFE-05 of the worked examples)", "0.1")
{
    Silences = ["RL3102"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Radio.FrontEnd is not { } front)
                continue;
            if (node.Radio.Antenna is not { } antenna)
            {
                yield return Waits(node, "radio.antenna");
            }
            else if (antenna.Value.Kind is { Value: AntennaKind.None } none)
            {
                yield return At(
                    node, none.Place, $"node `{node.Label}` has the amplifier {front.Value} and no antenna: what it sends comes back and can destroy it",
                    $"connect an antenna or a dummy load before power is applied, and state it",
                    Offer("State a dummy load", none.Place, "dummy load")) with
                { Related = See(front.Place, $"the amplifier is stated here") };
            }
        }
    }
}
