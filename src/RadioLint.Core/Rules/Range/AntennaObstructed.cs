using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Range;

/// <summary>RL7205: metal beside the antenna detunes it or stands in its way.</summary>
public sealed class AntennaObstructed() : Rule(new(
    "RL7205", Severity.Warning, "Antenna over copper, battery or metal",
    "own rule, common practice: printed antennas need board without copper about them; nothing radiates out of a closed metal box", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Radio.Antenna is not { } antenna || antenna.Value.Kind?.Value is AntennaKind.None or AntennaKind.DummyLoad)
                continue;
            if (antenna.Value.Around.IsEmpty)
                yield return Waits(node, "radio.antenna.around");
            foreach (var near in antenna.Value.Around.Where(near => near.Value != "clear"))
            {
                yield return At(
                    node, near.Place,
                    near.Value == "metal box" ? (FormattableString)$"the antenna of node `{node.Label}` is inside a metal box" : $"the antenna of node `{node.Label}` is over or beside {near.Value}",
                    near.Value == "metal box" ? $"lead an external antenna out of the box"
                        : antenna.Value.Kind?.Value is AntennaKind.Whip or AntennaKind.External ? (FormattableString)$"stand it upright and clear, a whip on a ground plane under its foot"
                        : $"let the printed antenna overhang the edge of the board, or use an external one");
            }
        }
    }
}
