using System.Globalization;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4005: an address that every radio of this kind has when it comes out of reset.</summary>
public sealed class FactoryAddress() : Rule(new(
    "RL4005", Severity.Warning, "Factory address in use",
    "reset values E7E7E7E7E7, C2C2C2C2C2 and C2C2C2C2C3 to C6 (nRF24L01+ Product Specification 1.0, Table 28)", "0.1")
{
    Silences = ["RL4006"],
})
{
    private static readonly string[] Whole = ["RX_ADDR_P0", "TX_ADDR"];

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var places in WrittenAddresses.Wrong(network, place => place.Owner.Part is { } part && IsFactory(place.Address, part)))
        {
            var first = places[0];
            yield return WrittenAddresses.About(network, places, At(
                first.Owner, first.Place,
                $"`{first.Address}` is what every {first.Owner.Part!.Name} answers to after a reset",
                $"use an address of your own, or leave it out: then one is derived from the names"));
        }
    }

    // Of a narrower address the low-order bytes count (Table 28, SETUP_AW).
    private static bool IsFactory(Address address, RadioPart part)
    {
        if (address.Width is < Address.Narrowest or > Address.Widest)
            return false;
        var value = ulong.Parse(address.ToString().Substring(2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);
        var mask = (1UL << (8 * address.Width)) - 1;
        var upper = part.RegistersReset.FirstOrDefault(register => register.Name == "RX_ADDR_P1")?.Reset.Bits & ~0xFFUL;
        return part.RegistersReset.Any(register => Whole.Contains(register.Name, StringComparer.Ordinal)
            ? (register.Reset.Bits & mask) == value
            : register.Name.StartsWith("RX_ADDR_P", StringComparison.Ordinal) && ((upper | register.Reset.Bits) & mask) == value);
    }
}
