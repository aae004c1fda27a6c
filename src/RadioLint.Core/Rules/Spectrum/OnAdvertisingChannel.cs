using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3203: the channel lies on one of the three on which Bluetooth LE devices announce themselves.</summary>
public sealed class OnAdvertisingChannel() : Rule(new(
    "RL3203", Severity.Info, "On a Bluetooth LE advertising channel",
    "2402, 2426 and 2480 MHz, 2 MHz wide (Bluetooth Core Specification, Vol 6 Part A 2; rectangles, touching edges do not overlap)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.Neighbours.BluetoothLe is not { Value: true } declared)
            yield break;
        var plan = NeighbourPlans.BluetoothLe;
        foreach (var node in OpenChannels.Airs(network))
        {
            var (channel, number, rate) = (node.Air.Channel!, node.Air.ChosenChannel!.Value, node.Air.ChosenRate!.Value);
            foreach (var hit in plan.Advertising.Where(each => OpenChannels.Overlaps(node, number, rate, plan.Occupied(each))))
            {
                var nearest = OpenChannels.Clear(network, node, rate, number);
                yield return At(
                    node, channel.Place,
                    $"channel {number} lies on Bluetooth LE advertising channel {hit.Index} at {hit.Centre.InMegahertz()}, where every device in reach announces itself",
                    nearest is null ? (FormattableString)$"measure which channel is quietest: none is clear of all declared neighbours" : $"use channel {nearest}, the nearest clear of all declared neighbours",
                    nearest is null ? [] : [Offer($"Use channel {nearest}", channel.Place, $"{nearest}")]) with
                { Related = See(declared.Place, $"Bluetooth LE is declared here") };
            }
        }
    }
}
