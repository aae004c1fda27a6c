using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1011: the SPI unit's own select pin is an input, and a low level there ends master mode.</summary>
public sealed class SlaveSelectLeftFloating() : Rule(new(
    "RL1011", Severity.Warning, "Master's own slave-select pin left as an input",
    "SS must be an output, or held high, while the SPI is master (ATmega328/P data sheet 42735A, section 23.3.2)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { } board, Wiring: { IsSoftware: false, Unit: { SlaveSelect: { Watched: "always" } watch } unit } wiring })
                continue;
            if (board.Port(wiring.Set?.Ss ?? watch.Pin) is not { } ss || node.SharesSpi.Any(other => IsAt(board, other.Select?.Pin?.Value, ss)))
                continue;
            if (wiring.Lines().FirstOrDefault(line => line.Pin?.Port == ss.Port) is { } line)
            {
                if (line.Signal == "irq")
                    yield return Low(node, ss, line.Place, "carries `irq`, which the radio pulls low");
            }
            else if (node.AlsoUses.FirstOrDefault(use => IsAt(board, use.Name.Text, ss)) is { } use)
            {
                if (use.IsInput?.Value == true)
                    yield return Low(node, ss, use.Name.Place, $"is an input for {use.Use}, which may go low");
            }
            else
            {
                yield return At(
                    node, wiring.Csn?.Place ?? node.NamePlace,
                    $"SS of {unit.Name}, {ss.Both} of `{node.Label}`, is not mentioned: left as an input, a low level there ends master mode",
                    $"make {ss.Label} an output before the SPI is switched on, and state it: `also-uses: {{ {ss.Label}: {{ use: output, direction: output }} }}`");
            }
        }
    }

    private Finding Low(Node node, BoardPin ss, Place place, string why) => At(
        node, place, $"SS, {ss.Both} of `{node.Label}`, {why}: the SPI drops out of master mode and the next transfer never ends",
        $"use another pin there, and make {ss.Label} an output") with
    { Severity = Severity.Error };

    private static bool IsAt(Board board, string? name, BoardPin pin) => name is not null && board.Find(name)?.Port == pin.Port;
}
