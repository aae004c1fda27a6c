using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1307: 5 V signals reach a module with a front end.</summary>
public sealed class FiveVoltLogicOnFrontEnd() : Rule(new(
    "RL1307", Severity.Error, "5 V logic on a module with a front end",
    "supply + 0.3 V; 5 V logic is named a burn-out risk (E01-ML01DP5 module specification 1.4, section 2.1)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { FrontEnd: { } front } || SignalLevels.AtRadio(node) is not { } signals)
                continue;
            // Where nobody says what feeds it, the most that it may be fed with proves the fault already.
            var most = (RadioRail.Of(node)?.Nominal ?? front.Supply.Value.High) + front.SignalsLimit.Value;
            if (signals <= most)
                continue;
            yield return At(
                node, node.Radio.FrontEnd!.Place, $"signals of {signals} reach {front.Name} of `{node.Label}`, {signals - most} above its {most}: it may burn out",
                $"put a level shifter on CE, CSN, SCK and MOSI and state `spi: {{ level-shifter: gate }}`, or use a 3.3 V controller");
        }
    }
}
