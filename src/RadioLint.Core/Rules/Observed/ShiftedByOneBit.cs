using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1904: the values are the right ones, one bit too early or too late.</summary>
public sealed class ShiftedByOneBit() : ObservedRule(new(
    "RL1904", Severity.Error, "Values are shifted by one bit",
    "data is taken on the rising edge of SCK, which idles low: mode 0 (nRF24L01+ Product Specification 1.0, Figures 26 to 28 p52)", "0.1"))
{
    // So many registers must be changed by the shift: 0x00 is 0x00 however it is shifted.
    private const int Fewest = 3;

    private static readonly (Func<int, int> Shift, int Unknown, string Way)[] Ways =
        [(value => value << 1, 0x01, "late"), (value => value >> 1, 0x80, "early")];

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        var listed = PowerOn.Static(radio.Listing, radio.Part).Where(one => one.Bytes.Length == 1 && !RegisterMap.IsWide(one.Address)).ToList();
        foreach (var (shift, unknown, way) in Ways)
        {
            foreach (var (values, what) in new[] { (Planned(radio), "planned"), (Reset(radio), "power-on") })
            {
                var known = listed.Select(one => (one.Value, Right: values(one.Address))).Where(one => one.Right is not null).ToList();
                if (known.Count(one => one.Value != one.Right) < Fewest || known.Exists(one => ((one.Value ^ shift(one.Right!.Value)) & 0xFF & ~unknown) != 0))
                    continue;
                var status = radio.Listing[Registers.Status] is { } told ? FormattableString.Invariant($", STATUS 0x{told.Value:X2}") : "";
                yield return At(
                    radio, radio.Listing.Place,
                    $"{known.Count} registers of `{radio.Node.Name}` hold their {what} values shifted by 1 bit{status}: the controller takes each bit one clock too {way}",
                    $"set the SPI unit to mode 0, highest bit first, before CSN first falls; then look for a glitch on SCK: a resistor of 47 ohm at the controller, wires below 10 cm");
                yield break;
            }
        }
    }

    private static Func<byte, int?> Planned(ObservedRadio radio) => address => radio.Expected[address]?.Planned[0];

    private static Func<byte, int?> Reset(ObservedRadio radio) => address => PowerOn.Reset(radio.Part, address) is { Length: 1 } reset ? reset[0] : null;
}
