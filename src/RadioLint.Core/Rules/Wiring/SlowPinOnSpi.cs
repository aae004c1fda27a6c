using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1026: an SPI line sits on a pin that is specified for slow signals only.</summary>
public sealed class SlowPinOnSpi() : Rule(new(
    "RL1026", Severity.Warning, "Pin specified for low frequencies only",
    "10 kHz on the pins beside the nRF52840's own radio (design notes that quote the module data sheet and the aQFN73 pin table; profiles)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line is not { Signal: "sck" or "mosi" or "miso", Pin: { IsLowFrequencyOnly: true } pin })
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                yield return At(
                    node, line.Place, $"{pin.Both} of `{node.Label}` is specified for signals up to 10 kHz and carries `{line.Signal}`{(node.Wiring.Clock is { } clock ? $" at {clock}" : "")}",
                    free is null ? (FormattableString)$"use a pin without that restriction" : $"use a pin without that restriction, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free));
            }
        }
    }
}
