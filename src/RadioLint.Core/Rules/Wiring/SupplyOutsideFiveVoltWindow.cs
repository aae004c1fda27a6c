using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1302: 5 V signals meet a radio whose supply is outside the narrower window that they call for.</summary>
public sealed class SupplyOutsideFiveVoltWindow() : Rule(new(
    "RL1302", Severity.Error, "Signals above 3.6 V while the radio's supply is outside its narrower window",
    "2.7 V to 3.3 V while any input is above 3.6 V (nRF24L01+ Product Specification 1.0, Table 3 and Table 12 note a)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            // Front ends have a stricter rule of their own, and a supply that the radio does not stand at all is another fault.
            if (node is not { FrontEnd: null, Radio.FrontEnd: null, Part: { } part } || SignalLevels.AtRadio(node) is not { } signals
                || signals <= part.Supply.NarrowsAbove.Value || RadioRail.Of(node) is not { } rail || rail.Nominal > part.Supply.Range.Value.High)
            {
                continue;
            }
            var window = part.Supply.With5V.Value;
            var place = node.Supply!.Output?.Place ?? node.Supply.Part?.Place ?? node.Supply.From?.Place ?? node.NamePlace;
            if (rail.Nominal < window.Low || rail.Nominal > window.High)
            {
                yield return At(
                    node, place, $"the radio of `{node.Label}` gets {rail.Nominal} and signals of {signals}; with those it needs {window.Low} to {window.High}",
                    $"use a rail of 3.0 V to 3.3 V, or a level shifter on CE, CSN, SCK and MOSI");
            }
            else if (rail.High > window.High)
            {
                yield return At(
                    node, place, $"the radio of `{node.Label}` gets up to {rail.High} over tolerance and signals of {signals}; with those {window.High} is the most: customary, works, formally outside",
                    $"use a 3.0 V regulator or a level shifter where it must be inside the data sheet") with
                { Severity = Severity.Info };
            }
        }
    }
}
