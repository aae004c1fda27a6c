using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1203: a device beside the radio is not surely deselected before the first transfer.</summary>
public sealed class SelectNotHeld() : Rule(new(
    "RL1203", Severity.Warning, "Device on the bus without a select that idles high",
    "every select is high before the first transfer; CSN high releases MISO (nRF24L01+ Product Specification 1.0, section 8.3.1; for other devices common practice, no source)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var other in node.SharesSpi)
            {
                var device = other.Part?.Value ?? "a device";
                var place = other.Select?.Place ?? other.Part?.Place ?? other.Place;
                switch (other.Select)
                {
                    case null or { Pin: null, Tie: PinTie.None }:
                        yield return At(
                            node, place, $"{device} on the bus of `{node.Label}` has no `select`: the program cannot deselect it before it speaks to the radio",
                            $"state its select pin, so that the start-up sets it high first; `select: tied high` for a device that is never used");
                        break;
                    case { Tie: PinTie.Low or PinTie.FromSck }:
                        yield return At(
                            node, place, $"{device} on the bus of `{node.Label}` is selected all the time and takes what is meant for the radio",
                            $"give it a select pin of its own, and set that high before the first transfer");
                        break;
                    case { Pin: { } pin, PullUp: null } when node.Board?.Find(pin.Value) is { ResetPull: not "high" }:
                        yield return At(
                            node, place, $"no pull-up holds the select of {device} on `{node.Label}` until the program sets it high",
                            $"set all selects high before the SPI is switched on, or add 10 kohm to VDD and state it",
                            other.Select.PullDown is null ? [Offer("State a pull-up of 10 kohm", [ResistorEdit.PullUp(other.Select, pin)])] : []) with
                        { Severity = Severity.Info };
                        break;
                }
            }
        }
    }
}
