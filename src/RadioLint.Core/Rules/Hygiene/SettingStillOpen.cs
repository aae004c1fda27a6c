using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8305: channel, rate or the order of fields is still open, so the network cannot be flashed yet.</summary>
public sealed class SettingStillOpen() : Rule(new(
    "RL8305", Severity.Info, "Setting still open", "own rule: `emit` needs every value", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            var air = node.Air;
            if (air.Channel is { Value.Number: null } channel)
                yield return Open(channel.Place, "channel", "`channel: 74`");
            if (air.Rate is { Value.Rate: null } rate)
                yield return Open(rate.Place, "rate", "`rate: 1 Mbps`");
        }
        foreach (var payload in network.Payloads)
        {
            if (payload is { Order: { Value.IsOpen: true } order, HasKnownSize: true, Fields.IsEmpty: false })
            {
                yield return At(
                    order.Place, $"the order of the fields of `{payload.Name}` is still open",
                    $"run `fill`, or choose one, for instance `order: {FieldOrder.InManifest(payload)}`") with
                { Subject = payload };
            }
        }
    }

    private Finding Open(Place place, string key, string example) =>
        At(place.FirstLine, $"the {key} is still open; rules that need it wait", $"choose one, for instance {example}");
}
