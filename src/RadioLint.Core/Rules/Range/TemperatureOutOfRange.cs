using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Rules.Range;

/// <summary>RL7208: the node lives where its radio or front end is not specified for.</summary>
public sealed class TemperatureOutOfRange() : Rule(new(
    "RL7208", Severity.Warning, "Temperature beyond the weakest part",
    "-40 to 85 degC for the radio (nRF24L01+ Product Specification 1.0, Table 3); front ends as their sheets state", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Temperature is not { } lives)
            {
                yield return Waits(node, "temperature");
                continue;
            }
            var parts = Parts(node).ToList();
            var said = new List<string>();
            if (parts.OrderByDescending(part => part.Range.Low).FirstOrDefault() is { Name: not null } cold && lives.Value.Low < cold.Range.Low)
                said.Add($"{new Temperature(cold.Range.Low.Centi - lives.Value.Low.Centi)} below the {cold.Range.Low} of {cold.Name}");
            if (parts.OrderBy(part => part.Range.High).FirstOrDefault() is { Name: not null } hot && lives.Value.High > hot.Range.High)
                said.Add($"{new Temperature(lives.Value.High.Centi - hot.Range.High.Centi)} above the {hot.Range.High} of {hot.Name}");
            if (said.Count > 0)
            {
                yield return At(
                    node, lives.Place, $"node `{node.Label}` lives at {lives.Value}, {string.Join(" and ", said)}",
                    $"shelter the node, or use parts whose grade covers it; crystals and electrolytics without a stated grade may fail near 0 degC already");
            }
        }
    }

    private static IEnumerable<(string Name, Between<Temperature> Range)> Parts(Node node)
    {
        if (node.Part is { } part)
            yield return (part.Name, part.Temperature.Value);
        if (node.FrontEnd is { Temperature.Value: var range } front)
            yield return (front.Name, range);
    }
}
