using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1010: the data lines follow the printed names MOSI and MISO, which on this chip belong to programming.</summary>
public sealed class ProgrammingNamesTaken() : Rule(new(
    "RL1010", Severity.Error, "Data lines wired by their programming names",
    "ATtiny25/45/85 data sheet 2586Q, table 10-3 and section 15.3.1: as master, MOSI goes to DO and MISO to DI", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var lines in SpiLines.Of(network))
        {
            if (lines.FitsSwapped is not { NamesAreSwapped: true } unit)
                continue;
            yield return At(
                lines.Node, lines.Mosi.Place,
                $"`mosi` is on {lines.Mosi.Pin!.Both} and `miso` on {lines.Miso.Pin!.Both} of `{lines.Node.Label}`: those names hold while the chip is programmed; as master {unit.Name} has them the other way round",
                $"swap the two: mosi {lines.Miso.Pin.Label} (DO), miso {lines.Mosi.Pin.Label} (DI)",
                SwapFix.For(lines) is { } fix ? [fix] : []);
        }
    }
}
