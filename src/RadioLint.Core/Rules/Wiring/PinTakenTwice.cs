using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1002: two things use one pin.</summary>
public sealed class PinTakenTwice() : Rule(new(
    "RL1002", Severity.Error, "One pin carries two signals", "a pin carries one signal; SCK, MOSI and MISO may be shared by devices on the bus (own rule)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is null)
                continue;
            var users = new Dictionary<string, (string What, Place Place)>(StringComparer.Ordinal);
            foreach (var (port, label, what, place) in Uses(node))
            {
                if (!users.TryGetValue(port, out var first))
                {
                    users.Add(port, (what, place));
                    continue;
                }
                var signal = what.Trim('`');
                var free = FreePins.For(node, signal is "ce" or "csn" or "irq" ? signal : "csn").FirstOrDefault();
                yield return At(
                    node, place, $"{label} of `{node.Label}` carries both {first.What} and {what}",
                    free is null ? (FormattableString)$"move one of the two to another pin" : $"move one of the two, for instance to {free.Label}",
                    free is not null && signal is "ce" or "csn" or "irq" ? [Offer($"Use {free!.Label}", place, free.Label)] : []) with
                {
                    Subject = (node, port, what),
                    Related = ImmutableArray.Create(new RelatedPlace(first.Place, $"{first.What} stands here")),
                };
            }
        }
    }

    // Chip selects of other devices are left to RL1201.
    private static IEnumerable<(string Port, string Label, string What, Place Place)> Uses(Node node)
    {
        var board = node.Board!;
        foreach (var (name, use) in board.Reserved)
        {
            if (board.Find(name.Text) is { } pin)
                yield return (pin.Port, pin.Both, use, name.Place);
        }
        foreach (var use in node.AlsoUses)
        {
            if (board.Find(use.Name.Text) is { } pin)
                yield return (pin.Port, pin.Both, use.Use, use.Name.Place);
        }
        // The radio's own lines last: they are what a finding points at.
        foreach (var line in node.Wiring.Lines())
        {
            if (line.Pin is { } pin)
                yield return (pin.Port, pin.Both, $"`{line.Signal}`", line.Place);
        }
    }
}
