using System.Collections.Immutable;

namespace RadioLint.Simulation;

/// <summary>
/// Carrier to interferer by rate and distance, as printed; between two printed distances the nearer one holds. At distances of
/// 32 MHz and its multiples the receiver is 5 dB worse (nRF24L01+ Product Specification 1.0, Table 8 note a p16, Table 9 note a p17).
/// </summary>
public sealed class RejectionTable
{
    public const int ClockStepMHz = 32;
    public const int ClockPenaltyDb = 5;
    private const int Farthest = 128;

    // By rate and distance; filled once, read at every collision.
    private readonly int[] needed = new int[3 * Farthest];

    public RejectionTable(ImmutableArray<Rejection> rows)
    {
        Rows = rows;
        foreach (var rate in Enum.GetValues<AirRate>())
        {
            for (var distance = 0; distance < Farthest; distance++)
                needed[((int)rate * Farthest) + distance] = Lookup(rate, distance);
        }
    }

    public ImmutableArray<Rejection> Rows { get; }

    /// <summary>How many dB the wanted signal must be above the other.</summary>
    public int Needed(AirRate rate, int distanceMHz) => needed[((int)rate * Farthest) + Math.Min(distanceMHz, Farthest - 1)];

    private int Lookup(AirRate rate, int distance)
    {
        var found = int.MinValue / 2;
        var at = -1;
        foreach (var row in Rows)
        {
            if (row.Rate == rate && row.Reaches(distance) && row.OffsetMHz > at)
                (found, at) = (row.Db, row.OffsetMHz);
        }
        return distance != 0 && distance % ClockStepMHz == 0 ? found + ClockPenaltyDb : found;
    }
}
