using System.Collections.Immutable;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>Exchanges the two data lines in the file, where both are written.</summary>
internal static class SwapFix
{
    public static Fix? For(SpiLines lines) => lines.Mosi.IsCustomary || lines.Miso.IsCustomary
        ? null
        : new(
            FixGrade.Offered, "Swap `mosi` and `miso`",
            ImmutableArray.Create(Edit.Value(lines.Mosi.Place, lines.Miso.Pin!.Label), Edit.Value(lines.Miso.Place, lines.Mosi.Pin!.Label)));
}
