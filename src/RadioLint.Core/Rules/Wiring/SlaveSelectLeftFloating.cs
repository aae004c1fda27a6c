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
            if (SpiLines.WatchedSelect(node) is not { } ss || node.SharesSpi.Any(other => IsAt(node, other.Select?.Pin?.Value, ss)))
                continue;
            if (node.Wiring.Lines().FirstOrDefault(line => line.Pin?.Port == ss.Port) is { } line)
            {
                if (line.Signal == "irq")
                    yield return Low(node, ss, line.Place, "carries `irq`, which the radio pulls low", "irq");
            }
            else if (node.AlsoUses.FirstOrDefault(use => IsAt(node, use.Name.Text, ss)) is { } use)
            {
                if (use.IsInput?.Value == true)
                    yield return Low(node, ss, use.Name.Place, $"is an input for `{use.Use}`, which may go low", "in");
            }
            else if (node is { IsExternal: false, Wiring.Csn: { } csn } && !node.Board!.Reserved.Any(reserved => IsAt(node, reserved.Pin.Text, ss)))
            {
                // A CSN without a pin may yet go to SS.
                yield return At(
                    node, csn.Place,
                    $"SS of {node.Wiring.Unit!.Name}, {ss.Both} of `{node.Label}`, is not mentioned: left as an input, a low level there ends master mode",
                    $"make {ss.Label} an output before the SPI is switched on, and state it: `also-uses: {{ {ss.Label}: {{ use: output, direction: output }} }}`",
                    Statement(network, node, ss) is { } edit ? [Offer($"State that {ss.Label} is an output", [edit])] : []);
            }
        }
    }

    private Finding Low(Node node, BoardPin ss, Place place, string why, string signal) => At(
        node, place, $"SS, {ss.Both} of `{node.Label}`, {why}: the SPI drops out of master mode and the next transfer never ends",
        $"use another pin there, and make {ss.Label} an output",
        FreePins.For(node, signal).FirstOrDefault() is { } free ? [Offer($"Use {free.Label}", place, free.Label)] : []) with
    { Severity = Severity.Error };

    private static Edit? Statement(Network network, Node node, BoardPin ss)
    {
        // Other members of its group may have a line there.
        if (node.Name != node.Entry && network.Nodes.Any(other => other.Entry == node.Entry && other.Wiring.Lines().Any(line => line.Pin?.Port == ss.Port)))
            return null;
        var use = KeyEdit.Map(node.Place, ("use", "output"), ("direction", "output"));
        if (!node.Writes("also-uses"))
            return FurtherKey.BehindBoard(node, "also-uses", KeyEdit.Map(node.Place, (ss.Label, use)));
        return !node.AlsoUses.IsEmpty && node.Place.Contains(node.AlsoUsesPlace) ? KeyEdit.Before(node.AlsoUsesPlace, node.AlsoUses[0].Name.Place, ss.Label, use) : null;
    }

    private static bool IsAt(Node node, string? name, BoardPin pin) => name is not null && node.Board!.Find(name)?.Port == pin.Port;
}
