using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1901: nothing but zeros comes back over SPI.</summary>
public sealed class BusReadsZero() : ObservedRule(new(
    "RL1901", Severity.Error, "Every register reads 0x00",
    "STATUS reads 0x0E after power-on and never 0x00 with an empty receive FIFO (nRF24L01+ Product Specification 1.0, Table 28 p59)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (!BusEvidence.IsOneValue(radio.Listing, 0x00) || !radio.Listing.Registers.Any(one => IsNeverZero(radio, one)))
            yield break;
        yield return At(
            radio, radio.Listing.Place,
            $"all {radio.Listing.Count} registers of `{radio.Node.Name}` read 0x00: MISO is low all the time",
            $"measure 3.3 V at the radio's VDD, then look at MISO: not connected, on another pin, swapped with MOSI, or held low by another device on the bus");
    }

    // Lengths of closed pipes and the like may well be all that a listing shows.
    private static bool IsNeverZero(ObservedRadio radio, ListedRegister one) =>
        one.Address is Registers.Status or Registers.SetupAw || (radio.Expected[one.Address]?.Planned.Any(planned => planned != 0) ?? false);
}
