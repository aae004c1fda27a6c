using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1104: MISO sits on a strap, and nothing keeps CSN high during reset.</summary>
public sealed class MisoOnStrap() : Rule(new(
    "RL1104", Severity.Warning, "MISO on a strap",
    "the profile's verdict for the strap; MISO is released only while CSN is high (nRF24L01+ Product Specification 1.0, 8.3)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Board: { } board, Wiring: { Miso: { Pin: { } pin } line, Csn: var csn } } || board.StrapAt(pin) is not { Miso: { Verdict: not "ok" } effect } strap
                || csn?.Use?.PullUp is not null)
            {
                continue;
            }
            yield return At(
                node, line.Place, $"`miso` of `{node.Label}` is on {pin.Both}, a strap ({strap.Needs}): {Clause.Of(effect.Text)}",
                $"add a pull-up of 10 kohm to `csn` and state it, or use another pin for `miso` where the chip allows it",
                [.. Fixes(node, board, line, csn)]);
        }
    }

    private static IEnumerable<Fix> Fixes(Node node, Board board, Line miso, Line? csn)
    {
        // Elsewhere than through a pin matrix one line cannot move alone.
        var moves = !miso.IsCustomary && (node.Wiring.IsSoftware || node.Wiring.Unit?.Kind is SpiKind.Matrix);
        if (moves && FreePins.For(node, "miso").FirstOrDefault() is { } free)
            yield return Offer($"Use {free.Label}", miso.Place, free.Label);
        // A pull-up on a strap that must be low would trade this fault for a worse one.
        if (csn is { Pin: { } pin, Use: { Pin: { } written, PullDown: null } use } && board.StrapAt(pin) is null or { Csn.Verdict: "ok" })
            yield return Offer("Add a pull-up of 10 kohm to `csn`", [ResistorEdit.PullUp(use, written)]);
    }
}
