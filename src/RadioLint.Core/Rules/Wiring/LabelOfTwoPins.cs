using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1027: a printed label stands for another pin on boards of the same chip with another print.</summary>
public sealed class LabelOfTwoPins() : Rule(new(
    "RL1027", Severity.Info, "Label that stands for two pins", "the profile: labels in the usual print and in others (board-support pin tables, names withheld)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { } board || !board.Pins.Any(pin => !pin.OtherLabels.IsEmpty))
                continue;
            var twofold = new List<(Line Line, BoardPin Other)>();
            foreach (var line in node.Wiring.Lines())
            {
                if (line is { IsCustomary: false, Written: { } label, Pin: { } pin } && label != pin.Port
                    && board.Pins.FirstOrDefault(one => one.Port != pin.Port && one.OtherLabels.Contains(label, StringComparer.Ordinal)) is { } other)
                {
                    twofold.Add((line, other));
                }
            }
            if (twofold.Count == 0)
                continue;
            yield return At(
                node, twofold[0].Line.Place,
                $"boards round {board.Chip} are printed in several ways: for `{node.Label}` {string.Join(", ", twofold.Select(one => $"`{one.Line.Written}` is taken as {one.Line.Pin!.Port}, elsewhere it is {one.Other.Port}"))}",
                $"write the port, such as `{twofold[0].Line.Pin!.Port}`, once the board at hand is known",
                Offer($"Write the port{(twofold.Count > 1 ? "s" : "")}", twofold.Select(one => Edit.Value(one.Line.Place, one.Line.Pin!.Port))));
        }
    }
}
