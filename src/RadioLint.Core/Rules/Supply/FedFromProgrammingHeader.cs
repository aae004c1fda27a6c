using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Supply;

/// <summary>RL2021: the radio takes its supply from pin 2 of the programming header, which is the board's own supply.</summary>
public sealed class FedFromProgrammingHeader() : Rule(new(
    "RL2021", Severity.Error, "Radio fed from pin 2 of the programming header",
    "3.6 V absolute maximum (nRF24L01+ Product Specification 1.0, Table 2); pin 2 of the 6-pin header of AVR boards is the controller's VCC, value from memory", "0.1")
{
    Silences = ["RL2002", "RL2001"],
})
{
    private static readonly string[] Names = ["ISP 2", "ICSP 2", "ISP VCC", "ICSP VCC"];

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Supply: { From.Value: SupplySource.BoardPin, Pin: { } pin }, Part.Supply.Absolute.Value.High: var most } || Array.IndexOf(Names, pin.Value) < 0
                || RadioRail.AtController(node) is not { } rail || rail.High <= most)
            {
                continue;
            }
            yield return At(
                node, pin.Place,
                $"`{pin.Value}` of `{node.Label}` is the controller's VCC, {rail.High}, {rail.High - most} above the radio's absolute maximum of {most}; it may be damaged at once",
                $"use the board's 3.3 V pin if it can carry the radio, or a 3.3 V regulator; the other lines of the header may stay");
        }
    }
}
