using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL5904: the radio has stopped sending.</summary>
public sealed class SenderStopped() : ObservedRule(new(
    "RL5904", Severity.Warning, "The sender has stopped",
    "MAX_RT must be cleared before anything more is sent, and 3 payloads fill the FIFO (nRF24L01+ Product Specification 1.0, Table 28 p59, 8.4 p55, App. A p75)", "0.1"))
{
    private const byte MaxRt = 0x10;
    private const byte StatusFull = 0x01;
    private const byte FifoFull = 0x20;
    private const byte FifoEmpty = 0x10;

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        var (status, fifo) = (radio.Listing[Registers.Status], radio.Listing[LiveRegisters.FifoStatus]);
        var isFull = (status is not null && (status.Value & StatusFull) != 0) || (fifo is not null && (fifo.Value & FifoFull) != 0);
        if (status is not null && (status.Value & MaxRt) != 0)
        {
            var waiting = isFull ? ", and the transmit FIFO is full with 3" : fifo is null || (fifo.Value & FifoEmpty) != 0 ? "" : ", and its payload is still in the transmit FIFO";
            yield return At(
                radio, status.Place,
                $"MAX_RT of `{radio.Node.Name}` is 1: a packet was given up{waiting}; nothing more is sent until the flag is cleared",
                $"clear MAX_RT by writing 1 to it and empty the transmit FIFO (FLUSH_TX) after each packet that is given up");
        }
        else if (isFull)
        {
            yield return At(
                radio, (fifo ?? status)!.Place,
                $"the transmit FIFO of `{radio.Node.Name}` is full: 3 payloads wait and none leaves",
                radio.Plan.Returns.IsEmpty
                    ? (FormattableString)$"look whether CE is raised for 10 us after each payload; FLUSH_TX empties the FIFO"
                    : (FormattableString)$"empty the FIFO (FLUSH_TX) when answers for a node that is gone wait in it: they keep those for the others back");
        }
    }
}
