using System.Globalization;
using System.Text.RegularExpressions;
using Proof;
using RadioLint.Tests.Proof.Host;

namespace RadioLint.Tests.Proof;

/// <summary>The constants of a header against the second encoder. What does not concern the radio is held elsewhere, and named here.</summary>
public static partial class HeaderJudge
{
    /// <summary>Names behind the node's that this project does not judge, with the tests that do.</summary>
    public static bool IsHeldElsewhere(string name, EmittedNode node) =>
        name is "RADIO_H" or "FINGERPRINT" or "DIGEST" or "NUMBER" // FingerprintValues, Programs
            || Elsewhere().IsMatch(name) // pins, SPI and sleep: Core.Tests/Wiring and ProgramsEmulated
            || (!name.EndsWith("_LENGTH", StringComparison.Ordinal) && node.Constants.Keys.Any(other => other.EndsWith("_LENGTH", StringComparison.Ordinal)
                && other != "DYNAMIC_LENGTH" && name.StartsWith(other[..^"LENGTH".Length], StringComparison.Ordinal))); // fields: codec.c

    public static IEnumerable<string> Faults(EmittedNode node, Expected expected)
    {
        var clock = node.Constants.TryGetValue("SPI_CLOCK_KHZ", out var kilohertz) ? int.Parse(kilohertz, CultureInfo.InvariantCulture) : 0;
        var wanted = expected.Constants(clock);
        foreach (var (name, value) in wanted)
        {
            if (!node.Constants.TryGetValue(name, out var stated))
                yield return $"{node.Ident}: {name} is missing, {value} is expected";
            else if (stated != value)
                yield return $"{node.Ident}: {name} is {stated}, {value} is expected";
        }
        foreach (var name in node.Constants.Keys.Where(name => !wanted.ContainsKey(name) && !IsHeldElsewhere(name, node)))
            yield return $"{node.Ident}: {name} is expected by nobody";
    }

    [GeneratedRegex("^(PIN_.*|SPI_CLOCK_KHZ|SPI_SELECT|WAKES_EVERY_M?S|AWAKE_[MU]?S)$")]
    private static partial Regex Elsewhere();
}
