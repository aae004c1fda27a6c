using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1018: a line of the radio sits on the serial lines of the console or of programming.</summary>
public sealed class ConsolePinUsed() : Rule(new(
    "RL1018", Severity.Warning, "Console or programming pin used for the radio", "the board's profile: what each pin is wired to", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var line in node.Wiring.Lines())
            {
                if (line.Pin is not { } pin || !pin.IsTakenBy("console"))
                    continue;
                var free = FreePins.For(node, line.Signal).FirstOrDefault();
                var job = string.Join("; ", pin.Carries.DefaultIfEmpty("serial console"));
                yield return At(
                    node, line.Place, $"{pin.Both} of `{node.Label}`, which carries `{line.Signal}`, is a line of the console or of programming: {job}",
                    free is null ? (FormattableString)$"use another pin" : $"use another pin, for instance {free.Label}",
                    FreePins.Instead(network, node, line, free)) with
                { Subject = (node, line.Signal) };
            }
        }
    }
}
