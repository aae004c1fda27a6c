using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4004: an address as text or as a list of bytes, which does not show which byte goes first on air.</summary>
public sealed class MirroredSpelling() : Rule(new(
    "RL4004", Severity.Info, "Address in a form that hides its byte order",
    "registers take the low byte first, the air carries the high byte first (nRF24L01+ Product Specification 1.0, 8.3.1, Figure 5 and Table 28)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var one in WrittenAddresses.Of(network).SelectMany(places => places))
        {
            var (spelling, address) = (one.Spelling, one.Spelling.Address);
            // Of a pipe of 2 to 5 one byte alone may be written; and some addresses are the same from either end.
            if (spelling.Form is AddressForm.Digits || address.Width < Address.Narrowest || address.Equals(new(address.RegisterBytes)))
                continue;
            yield return At(
                one.Owner, one.Place,
                $"{Written(spelling)} {(spelling.IsRegisterOrder ? "in register order" : "in air order")} is `{address}` on air; SPI takes the {address.Width} bytes as {Spaced(address.RegisterBytes)}",
                $"write `{address}`, which reads the same everywhere: first byte on air first",
                // What a person has noted inside would go with the map.
                one.Place.Text.Contains('#') ? [] : [new Fix(FixGrade.Safe, $"Write {address}", ImmutableArray.Create(KeyEdit.Instead(one.Place, $"{address}")))]) with
            {
                Subject = one.Place,
                LinkName = one.Hop?.Link.Name,
            };
        }
    }

    private static string Written(WrittenAddress spelling) =>
        spelling.Text is { } text ? $"text `{text}`" : $"{Spaced(spelling.IsRegisterOrder ? spelling.Address.RegisterBytes : spelling.Address.AirBytes)}";

    private static string Spaced(IEnumerable<byte> bytes) => string.Join(" ", bytes.Select(one => FormattableString.Invariant($"{one:X2}")));
}
