using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1023: nothing holds CSN or CE while the controller does not drive them.</summary>
public sealed class LinesUndefinedAtReset() : Rule(new(
    "RL1023", Severity.Info, "CE or CSN undefined while the controller is in reset",
    "10 kohm to VDD at CSN and 10 kohm to GND at CE (common practice, no source); pulls of the chip itself count (BCM2835 ARM Peripherals, table 6-31)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            var floats = node.Sleep?.LinesHeld?.Value == false;
            var bare = new List<(string Signal, Edit? Edit)>();
            if ((floats || !node.SharesSpi.IsEmpty) && node.Wiring.Csn is { Pin: { ResetPull: not "high" } csn, Use: { PullUp: null, Pin: { } csnName } csnUse })
                bare.Add(("csn", node.Board!.StrapAt(csn) is null or { Csn.Verdict: "ok" } && csnUse.PullDown is null ? ResistorEdit.PullUp(csnUse, csnName) : null));
            if (floats && node.Wiring.Ce is { Pin: { ResetPull: not "low" } ce, Use: { PullDown: null, Pin: { } ceName } ceUse })
                bare.Add(("ce", node.Board!.StrapAt(ce) is null or { Ce.Verdict: "ok" } && ceUse.PullUp is null ? ResistorEdit.PullDown(ceUse, ceName) : null));
            if (bare.Count == 0)
                continue;
            var edits = bare.Select(one => one.Edit).OfType<Edit>().ToList();
            var names = string.Join(" and ", bare.Select(one => $"`{one.Signal}`"));
            yield return At(
                node, (bare[0].Signal == "csn" ? node.Wiring.Csn : node.Wiring.Ce)!.Place,
                floats
                    ? (FormattableString)$"no resistor of 10 kohm holds {names} of `{node.Label}` in reset and in sleep, when the lines float"
                    : $"no resistor of 10 kohm holds {names} of `{node.Label}` in reset: the radio may answer on a bus that it shares",
                $"add {string.Join(" and ", bare.Select(one => one.Signal == "csn" ? "10 kohm from CSN to VDD" : "10 kohm from CE to GND"))} and state it",
                edits.Count == bare.Count ? [Offer($"State the resistor{(edits.Count > 1 ? "s" : "")} at {names}", edits)] : []);
        }
    }
}
