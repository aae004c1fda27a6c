using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1013: a line of the radio sits on the debug port, which nobody says is released.</summary>
public sealed class DebugPortNotReleased() : Rule(new(
    "RL1013", Severity.Warning, "Debug port used without being released",
    "pins that belong to JTAG after reset: STM32F103 PA15, PB3 and PB4 (DS5319 Rev 18, table 5), and others (profiles)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.AlsoUses.Any(use => use is { Name.Text: "JTAG", Use: "released" }))
                continue;
            var lines = node.Wiring.Lines().Where(line => line.Pin?.IsTakenBy("jtag") == true).ToList();
            if (lines.Count == 0)
                continue;
            var isData = lines.TrueForAll(line => line.Signal is "sck" or "mosi" or "miso") && SpiLines.UnitsOf(node).Any();
            var free = lines.Count == 1 ? FreePins.For(node, lines[0].Signal).FirstOrDefault() : null;
            var fix = isData ? SpiGroups.Offer(node) : free is null || lines[0].IsCustomary ? null : Offer($"Use {free.Label}", lines[0].Place, free.Label);
            yield return At(
                node, lines[0].Place,
                $"`{node.Label}` has {string.Join(", ", lines.Select(line => $"`{line.Signal}` on {line.Pin!.Both}"))} of the debug port: {Clause.Of(lines[0].Pin!.Note ?? "JTAG after reset")}",
                $"release the port before the pins are used and state `also-uses: {{ JTAG: released }}`, or use {(isData ? SpiGroups.Text(node) : free?.Label ?? "other pins")}",
                fix is null ? [] : [fix]);
        }
    }
}
