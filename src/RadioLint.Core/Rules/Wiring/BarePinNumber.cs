using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;
using System.Globalization;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1019: a bare number where several numberings of the pins are in use.</summary>
public sealed class BarePinNumber() : Rule(new(
    "RL1019", Severity.Error, "Bare pin number where several numberings are in use",
    "positions of the 40-pin header and numbers of the chip's GPIO differ (BCM2835 ARM Peripherals, table 6-31, against public tables of the header)", "0.1")
{
    Silences = ["RL1003"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { } board || !board.Pins.Any(pin => pin.HeaderPin is not null))
                continue;
            foreach (var (name, place, subject) in Names(node, board))
            {
                if (!int.TryParse(name, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || board.Find(name) is not null)
                    continue;
                var byNumber = board.Pins.FirstOrDefault(pin => pin.Number == number);
                var byPosition = board.Pins.FirstOrDefault(pin => pin.HeaderPin == number);
                // A number in no numbering is simply no pin.
                var meant = new[] { byNumber?.Port, byPosition is null ? null : FormattableString.Invariant($"pin {number}") }.Where(one => one is not null).Select(one => one!).ToList();
                if (meant.Count == 0)
                    continue;
                yield return At(
                    node, place, $"`{name}` of `{node.Label}` does not say which numbering it follows: {Readings(number, byNumber, byPosition)}",
                    $"write {string.Join(" or ", meant.Select(one => $"`{one}`"))}",
                    meant.Count == 1 ? [Offer($"Write `{meant[0]}`", place, meant[0])] : []) with
                { Subject = subject };
            }
        }
    }

    private static string Readings(int number, BoardPin? byNumber, BoardPin? byPosition) => (byNumber, byPosition) switch
    {
        ({ } gpio, { } at) => FormattableString.Invariant($"{gpio.Port} is at position {gpio.HeaderPin} of the header, and position {number} is {at.Port}"),
        (null, { } at) => FormattableString.Invariant($"position {number} of the header is {at.Port}, and no GPIO has that number"),
        _ => FormattableString.Invariant($"{byNumber!.Port} is at position {byNumber.HeaderPin} of the header, and position {number} is no signal"),
    };

    private static IEnumerable<(string Name, Place Place, object Subject)> Names(Node node, Board board)
    {
        foreach (var line in node.Wiring.Lines())
        {
            if (line is { IsCustomary: false, Written: { } written })
                yield return (written, line.Place, (node, line.Signal));
        }
        foreach (var name in board.Reserved.Select(reserved => reserved.Pin).Concat(node.AlsoUses.Select(use => use.Name)))
            yield return (name.Text, name.Place, (node, name.Text));
        foreach (var other in node.SharesSpi)
        {
            if (other.Select?.Pin is { } select)
                yield return (select.Value, select.Place, (node, select.Value));
        }
    }
}
