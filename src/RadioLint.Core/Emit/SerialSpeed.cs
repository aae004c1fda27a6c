using System.Globalization;
using RadioLint.Model;

namespace RadioLint.Emit;

/// <summary>A speed of an AVR's serial port at double speed: the clock by 8 and by a whole number (ATmega328/P data sheet 42735A, Table 24-1).</summary>
/// <param name="Baud">As wanted.</param>
/// <param name="Divider">1 to 4096.</param>
/// <param name="PerMille">How far off, either way, rounded up.</param>
public sealed record SerialSpeed(int Baud, int Divider, int PerMille)
{
    // Common practice, no source: what is stated may be up to 3 % off, what is chosen 1 %.
    private const int StatedPerMille = 30;
    private const int ChosenPerMille = 10;

    private static readonly int[] Usual = [38_400, 19_200, 9_600, 4_800, 2_400];

    /// <summary>The host's, else the fastest usual one that the clock meets; null when the host's cannot be met.</summary>
    public static SerialSpeed? Of(Host? host, long hertz)
    {
        var words = host is { By.Value: "serial", Speed.Value: { } stated } ? stated.Split(' ') : [];
        return words is [var number, "baud"] && int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var baud) && baud > 0
            ? At(baud, hertz) is { PerMille: <= StatedPerMille } met ? met : null
            : Usual.Select(one => At(one, hertz)).FirstOrDefault(one => one.PerMille <= ChosenPerMille);
    }

    public string InWords() => string.Create(CultureInfo.InvariantCulture, $"{Baud} baud{(PerMille == 0 ? "" : $", {PerMille / 10}.{PerMille % 10} % off at most")}");

    private static SerialSpeed At(int baud, long hertz)
    {
        var divider = Math.Clamp((hertz + 4L * baud) / (8L * baud), 1, 4096);
        var off = Math.Abs(hertz - divider * 8 * baud);
        return new(baud, (int)divider, (int)((off * 1000 + divider * 8 * baud - 1) / (divider * 8 * baud)));
    }
}
