using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1211: on a Linux host, CSN is not on the select line of the device that the program opens.</summary>
public sealed class SelectOfOtherDevice() : Rule(new(
    "RL1211", Severity.Error, "Select line and SPI device disagree",
    "the select lines of SPI0 are GPIO8 and GPIO7, those of SPI1 GPIO18, GPIO17 and GPIO16 (BCM2835 ARM Peripherals, table 6-31)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { IsLinux: true } board, Spi.Select: { } select, Wiring: { IsSoftware: false, Csn: { Pin: { } csn } line, Unit: { Options.Ss: { IsEmpty: false } selects } unit } })
                continue;
            var wanted = select.Value >= 0 && select.Value < selects.Length ? board.Port(selects[select.Value]) : null;
            if (wanted?.Port == csn.Port)
                continue;
            var at = selects.IndexOf(csn.Port);
            var device = FormattableString.Invariant($"/dev/spidev{Number(unit)}.{at}");
            yield return At(
                node, select.Place,
                wanted is null
                    ? (FormattableString)$"`{node.Label}` opens select {select.Value} of {unit.Name}, which has 0 to {selects.Length - 1}; `csn` is on {csn.Both}"
                    : $"`{node.Label}` opens select {select.Value} of {unit.Name}, which is {wanted.Both}; `csn` is on {csn.Both}",
                at >= 0
                    ? (FormattableString)$"use select {at}, {device} when the SPI is enabled, or move `csn`"
                    : $"move `csn` to {(wanted ?? board.Port(selects[0]))?.Both}, or drop `select` where the system is set up for {csn.Port}",
                at >= 0 ? [Offer(FormattableString.Invariant($"Use select {at}"), select.Place, FormattableString.Invariant($"{at}"))] : []) with
            { Related = See(line.Place, $"`csn` is here") };
        }
    }

    // `SPI1 (auxiliary)` is bus 1.
    private static char Number(SpiUnit unit) => unit.Name.FirstOrDefault(c => c is >= '0' and <= '9');
}
