using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL4901: the radio holds another address, or addresses of another width.</summary>
public sealed class AddressDiffers() : ObservedRule(new(
    "RL4901", Severity.Error, "Address in the chip differs from the plan",
    "addresses are written low byte first, as many bytes as SETUP_AW says (nRF24L01+ Product Specification 1.0, 8.3.1 p50, Table 28 p58-60)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Difference(Registers.SetupAw) is { } width)
        {
            var (found, planned) = (width.Listed.Value & 0x03, width.Expected.Planned[0] & 0x03);
            yield return At(
                radio, width.Listed.Place,
                $"AW of `{radio.Node.Name}` says {(found == 0 ? "an illegal width" : FormattableString.Invariant($"{found + 2} bytes"))}, planned {planned + 2} bytes",
                $"write SETUP_AW from the node's header before the addresses; while it differs no packet arrives") with
            {
                Related = Planned(radio, Registers.SetupAw),
            };
        }
        foreach (var one in radio.Differences.Where(one => one.Address is >= Registers.RxAddrP0 and <= Registers.TxAddr && !IsOfSender(radio, one)))
        {
            yield return At(
                radio, one.Listed.Place,
                $"{one.Listed.Name} of `{radio.Node.Name}` is {Hex.Number(one.Listed.Bytes)}, planned {Hex.Number(one.Expected.Planned)}{Cause(radio, one)}",
                $"write the bytes of the node's header as they stand there, low byte first, one transfer for the whole address") with
            {
                Related = Planned(radio, one.Address),
            };
        }
    }

    // Where acknowledgements come to is the business of RL4903; one that follows a wrong TX_ADDR has the same cause.
    private static bool IsOfSender(ObservedRadio radio, RegisterDifference one) =>
        one.Address == Registers.RxAddrP0 && radio.Plan.SendsAcknowledged && radio.Listing[Registers.TxAddr] is not null;

    private static string Cause(ObservedRadio radio, RegisterDifference one)
    {
        var (found, planned) = (one.Listed.Bytes, one.Expected.Planned);
        var reset = PowerOn.Reset(radio.Part, one.Address);
        if (found.Length == planned.Length && found.Length > 1 && found.Reverse().SequenceEqual(planned))
            return "; the same bytes turned round: they were written high byte first";
        if (ExpectedRegister.IsAlike(reset, found, 0xFF))
            return "; that is the power-on value";
        var upper = found.Length > 3 ? Enumerable.Range(1, found.Length - 3).FirstOrDefault(count => IsMixed(found, planned, reset, found.Length - count)) : 0;
        return upper > 0 ? FormattableString.Invariant($"; the upper {upper} byte{(upper == 1 ? " is" : "s are")} of power-on: fewer bytes were written than SETUP_AW says") : "";
    }

    // The lower bytes as planned, the rest as after power-on (Table 20 p51: what is not written stays).
    private static bool IsMixed(ImmutableArray<byte> found, ImmutableArray<byte> planned, ImmutableArray<byte> reset, int lower) =>
        found.Take(lower).SequenceEqual(planned.Take(lower)) && found.Skip(lower).SequenceEqual(reset.Skip(lower).Take(found.Length - lower));
}
