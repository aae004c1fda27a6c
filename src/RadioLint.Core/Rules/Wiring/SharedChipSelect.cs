using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1201: two devices on the bus are selected by one pin.</summary>
public sealed class SharedChipSelect() : Rule(new(
    "RL1201", Severity.Error, "Two devices share a chip select", "one select for each device; every command starts with CSN falling (nRF24L01+ Product Specification 1.0, 8.3)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { } board)
                continue;
            var selects = new Dictionary<string, (string Device, Place Place)>(StringComparer.Ordinal);
            if (node.Wiring.Csn is { Pin: { } csn } line)
                selects.Add(csn.Port, ("the radio", line.Place));
            foreach (var other in node.SharesSpi)
            {
                if (other.Select?.Pin is not { } select || board.Find(select.Value) is not { } pin)
                    continue;
                var device = other.Part?.Value ?? "a device";
                if (!selects.TryGetValue(pin.Port, out var first))
                {
                    selects.Add(pin.Port, (device, select.Place));
                    continue;
                }
                var free = FreePins.For(node, "csn").FirstOrDefault();
                yield return At(
                    node, select.Place, $"{pin.Both} of `{node.Label}` selects both {first.Device} and {device}: both answer at once",
                    free is null ? (FormattableString)$"give each device a select pin of its own" : $"give each device a select pin of its own, for instance {free.Label}",
                    free is null ? [] : [Offer($"Use {free.Label}", select.Place, free.Label)]) with
                { Related = ImmutableArray.Create(new RelatedPlace(first.Place, $"{first.Device} is selected here")), Subject = (node, pin.Port) };
            }
        }
    }
}
