using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1905: bits are lost here and there, or two listings of one run differ.</summary>
public sealed class BitsLost() : ObservedRule(new(
    "RL1905", Severity.Error, "Bits are lost on the bus",
    "own rule: 3 registers with bits missing and none added, or 2 registers that differ between two listings of one run", "0.1"))
{
    private const int FewestDamaged = 3;
    private const int FewestChanged = 2;

    private const string Remedy =
        "shorten the wires below 10 cm, run SPI slower (`spi: { clock: 1 MHz }`), give the radio a ground wire of its own beside SCK, and 10 uF at its pins";

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.IsPowerOn || radio.IsEarlier)
            yield break;
        var damaged = radio.Differences.Where(IsDamaged).ToList();
        if (damaged.Count >= FewestDamaged && damaged.Count == radio.Differences.Count)
        {
            yield return At(
                radio, damaged[0].Listed.Place,
                $"{damaged.Count} registers of `{radio.Node.Name}` read with bits missing and none added ({string.Join(", ", damaged.Take(3).Select(one => one.Listed.Name))}{(damaged.Count > 3 ? ", ..." : "")}): ones arrive as zeros",
                $"{Remedy}");
            yield break;
        }
        if (radio.Before.LastOrDefault(one => one.Run == radio.Listing.Run && one.IsComplete) is not { } before
            || PowerOn.Fits(before, radio.Part))
        {
            yield break;
        }
        var changed = PowerOn.Static(radio.Listing, radio.Part).Where(one => before[one.Address] is { } was && !IsSame(radio, was, one)).ToList();
        if (changed.Count < FewestChanged)
            yield break;
        yield return At(
            radio, changed[0].Place,
            $"two listings of one run of `{radio.Node.Name}` differ in {changed.Count} registers ({string.Join(", ", changed.Take(3).Select(one => one.Name))}{(changed.Count > 3 ? ", ..." : "")})",
            $"{Remedy}") with
        {
            Related = System.Collections.Immutable.ImmutableArray.Create(new RelatedPlace(before[changed[0].Address]!.Place, "the listing before")),
        };
    }

    // A value of power-on is a lost configuration, a zero a setting that somebody left off.
    private static bool IsDamaged(RegisterDifference one) =>
        !RegisterMap.IsWide(one.Address) && one.Bits != 0 && (one.Bits & one.Listed.Value) == 0 && one.Listed.Value != 0;

    // Where both are legal, the program has changed its role.
    private static bool IsSame(ObservedRadio radio, ListedRegister was, ListedRegister now) =>
        ExpectedRegister.IsAlike(was.Bytes, now.Bytes, radio.Expected[now.Address]?.Mask ?? 0xFF)
        || (radio.Expected[now.Address] is { } expected && expected.Fits(was) && expected.Fits(now));
}
