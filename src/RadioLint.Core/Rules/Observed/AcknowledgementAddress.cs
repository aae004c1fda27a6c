using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL4903: a sender does not listen where its acknowledgements come to.</summary>
public sealed class AcknowledgementAddress() : ObservedRule(new(
    "RL4903", Severity.Error, "Sender's pipe 0 is not its send address",
    "RX_ADDR_P0 equals TX_ADDR on a sender that wants acknowledgements (nRF24L01+ Product Specification 1.0, Table 28 p60, App. A p75)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (!radio.Plan.SendsAcknowledged || radio.Listing[Registers.TxAddr] is not { } send || radio.Listing[Registers.RxAddrP0] is not { } back
            || ExpectedRegister.IsAlike(send.Bytes, back.Bytes, 0xFF) || IsOwn(radio, back) || IsOfSendAddress(radio))
        {
            yield break;
        }
        yield return At(
            radio, back.Place,
            $"RX_ADDR_P0 of `{radio.Node.Name}` is {Hex.Number(back.Bytes)} and TX_ADDR {Hex.Number(send.Bytes)}: acknowledgements are not heard, so a packet that arrives is repeated and given up",
            $"write the send address to RX_ADDR_P0 as well, each time that TX_ADDR is written") with
        {
            Related = Planned(radio, Registers.TxAddr),
        };
    }

    // Where TX_ADDR alone is wrong, RL4901 says so.
    private static bool IsOfSendAddress(ObservedRadio radio) => radio.Difference(Registers.TxAddr) is not null && radio.Difference(Registers.RxAddrP0) is null;

    // Pipe 0 has two legal values on a node that listens there between its packets.
    private static bool IsOwn(ObservedRadio radio, ListedRegister back) =>
        radio.Plan.Pipes.FirstOrDefault(pipe => pipe.Number == 0)?.Address is { } own && ExpectedRegister.IsAlike(own.RegisterBytes, back.Bytes, 0xFF);
}
