using System.Collections.Immutable;

namespace RadioLint.Simulation;

/// <summary>Carrier to interferer as the data sheets print it, in dB; typical values.</summary>
internal static class RejectionRows
{
    /// <summary>nRF24L01+ Product Specification 1.0, Table 9 p17: interferer modulated like the wanted signal.</summary>
    public static ImmutableArray<Rejection> PlusOwnKind { get; } =
    [
        .. Of(AirRate.Kbps250, (0, 7), (1, -12), (2, -34), (3, -39), (-6, -50), (-25, -60)),
        .. Of(AirRate.Mbps1, (0, 12), (1, 8), (2, -21), (3, -30), (-6, -40), (-25, -50)),
        .. Of(AirRate.Mbps2, (0, 11), (2, 4), (4, -18), (6, -24), (-12, -40), (-36, -48)),
    ];

    /// <summary>nRF24L01+ Product Specification 1.0, Table 8 p16: method of EN 300 440-1.</summary>
    public static ImmutableArray<Rejection> PlusBlocker { get; } =
    [
        .. Of(AirRate.Kbps250, (0, 12), (1, -12), (2, -33), (3, -38), (-6, -50), (-25, -60)),
        .. Of(AirRate.Mbps1, (0, 9), (1, 8), (2, -20), (3, -30), (-6, -40), (-25, -47)),
        .. Of(AirRate.Mbps2, (0, 7), (2, 3), (4, -17), (6, -21), (-12, -40), (-36, -48)),
    ];

    /// <summary>nRF24L01 Product Specification 2.0, Table 7 p16.</summary>
    public static ImmutableArray<Rejection> EarlierOwnKind { get; } =
    [
        .. Of(AirRate.Mbps1, (0, 12), (1, 8), (2, -21), (3, -30)),
        .. Of(AirRate.Mbps2, (0, 11), (2, 4), (4, -20), (6, -27)),
    ];

    /// <summary>nRF24L01 Product Specification 2.0, Table 7 p16.</summary>
    public static ImmutableArray<Rejection> EarlierBlocker { get; } =
    [
        .. Of(AirRate.Mbps1, (0, 9), (1, 8), (2, -22), (3, -30)),
        .. Of(AirRate.Mbps2, (0, 7), (2, 1), (4, -21), (6, -27)),
    ];

    // A negative offset stands for "greater than".
    private static IEnumerable<Rejection> Of(AirRate rate, params (int Offset, int Db)[] rows) =>
        rows.Select(row => new Rejection(rate, Math.Abs(row.Offset), row.Offset < 0, row.Db));
}
