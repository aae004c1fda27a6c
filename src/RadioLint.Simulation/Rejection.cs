namespace RadioLint.Simulation;

/// <summary>
/// A line of a table of carrier to interferer: how much stronger than the other signal the wanted one must be.
/// </summary>
/// <param name="OffsetMHz">Distance of the other signal.</param>
/// <param name="IsBeyond">True where the table says "greater than".</param>
/// <param name="Db">Negative where a stronger interferer is tolerated.</param>
public readonly record struct Rejection(AirRate Rate, int OffsetMHz, bool IsBeyond, int Db)
{
    /// <summary>True when the line holds at a distance, as long as none further out does.</summary>
    public bool Reaches(int distanceMHz) => IsBeyond ? distanceMHz > OffsetMHz : distanceMHz >= OffsetMHz;
}
