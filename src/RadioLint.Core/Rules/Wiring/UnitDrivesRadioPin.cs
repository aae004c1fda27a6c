using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1017: a timer, a serial port or another unit that the program uses shares a pin or the SPI unit with the radio.</summary>
public sealed class UnitDrivesRadioPin() : Rule(new(
    "RL1017", Severity.Warning, "Another unit of the chip on the radio's pin", "the chip's table of pin functions (profiles)", "0.1")
{
    // The console is the serial unit's other name.
    Silences = ["RL1018"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { } board)
                continue;
            foreach (var use in node.AlsoUses)
            {
                var name = use.Name.Text;
                if (board.Find(name) is not null)
                    continue;
                if (node.Wiring is { IsSoftware: false, Unit: { } unit } && board.Unit(name)?.Name == unit.Name)
                {
                    yield return At(
                        node, use.Name.Place, $"`{name}` of `{node.Label}` makes the SPI of the radio and is to serve `{use.Use}` too",
                        $"list a device on the same lines under `shares-spi`, or move `{use.Use}` to another unit");
                    continue;
                }
                var (ports, isTimer) = UnitPins.Of(board, name);
                var lines = node.Wiring.Lines().Where(line => line.Pin is { } pin && ports.Contains(pin.Port)).ToList();
                // A timer that only counts leaves its pins alone.
                var isCertain = !isTimer || use.Use.IndexOf("PWM", StringComparison.OrdinalIgnoreCase) >= 0;
                for (var i = 0; i < lines.Count; i++)
                {
                    // All pins of a timer are one fault; lines of a serial unit have a rule each to silence.
                    var told = isTimer ? lines : lines.GetRange(i, 1);
                    yield return At(
                        node, use.Name.Place,
                        $"`{name}` of `{node.Label}`, used for `{use.Use}`, {(isCertain ? "drives" : "may drive")} {string.Join(" and ", told.Select(line => $"{line.Pin!.Both}, which carries `{line.Signal}`"))}",
                        $"use another unit for `{use.Use}`, or other pins for the radio") with
                    { Severity = isCertain ? Severity.Warning : Severity.Info, Subject = (node, told[0].Signal), Related = See(told[0].Place, $"`{told[0].Signal}` is here") };
                    if (isTimer)
                        break;
                }
            }
        }
    }
}
