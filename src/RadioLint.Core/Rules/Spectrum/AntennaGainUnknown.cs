using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3102: an antenna that may have any gain, and the manifest does not say which.</summary>
public sealed class AntennaGainUnknown() : Rule(new(
    "RL3102", Severity.Warning, "External antenna without gain or cable loss",
    "own rule: radiated power counts antenna and cable, so it cannot be judged without them", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Radio.Antenna is not { } antenna)
            {
                if (node.Radio.FrontEnd is not null)
                    yield return Waits(node, "radio.antenna");
                continue;
            }
            var isExternal = antenna.Value.Kind?.Value is AntennaKind.External;
            if (antenna.Value.Kind?.Value is AntennaKind.DummyLoad || !(isExternal || node.Radio.FrontEnd is not null))
                continue;
            if (antenna.Value.Gain is null)
            {
                yield return At(
                    node, antenna.Place.FirstLine, $"the gain of the {Words(antenna.Value)} of node `{node.Label}` is not stated, so radiated power counts it as 0 dBi",
                    $"add `gain:`{(isExternal && antenna.Value.Cable is null ? " and `cable:`" : "")} from its data sheet; the rules of the place of use govern");
            }
            else if (isExternal && antenna.Value.Cable is null)
            {
                yield return At(
                    node, antenna.Place.FirstLine, $"the loss of the cable to the external antenna of node `{node.Label}` is not stated, so it counts as 0 dB",
                    $"add `cable:` with its loss, 0 dB for one that is screwed on; the rules of the place of use govern") with
                { Severity = Severity.Info };
            }
        }
    }

    private static string Words(Antenna antenna) => antenna.Kind?.Value switch
    {
        AntennaKind.External => "external antenna",
        AntennaKind.Whip => "whip",
        AntennaKind.Printed => "printed antenna",
        _ => "antenna",
    };
}
