using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL5906: received packets are not fetched.</summary>
public sealed class NobodyFetches() : ObservedRule(new(
    "RL5906", Severity.Warning, "Receive FIFO is full",
    "3 packets fill the receive FIFO, and further ones are lost (nRF24L01+ Product Specification 1.0, 8.4 p55, Table 28 p61)", "0.1"))
{
    private const byte RxFull = 0x02;

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Listing[LiveRegisters.FifoStatus] is not { } one || (one.Value & RxFull) == 0)
            yield break;
        yield return At(
            radio, one.Place,
            $"the receive FIFO of `{radio.Node.Name}` is full: 3 packets wait, and further ones are not acknowledged",
            $"fetch packets until FIFO_STATUS says that none is left, each time that RX_DR or IRQ tells of one (RL5401)");
    }
}
