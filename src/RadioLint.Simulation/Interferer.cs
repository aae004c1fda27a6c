namespace RadioLint.Simulation;

/// <summary>A foreign signal of constant power, heard alike by all chips.</summary>
/// <param name="From">First tick.</param>
/// <param name="To">The tick after its last.</param>
/// <param name="Channel">Its frequency as a channel number: MHz above 2400.</param>
/// <param name="Dbm">At the receivers.</param>
public readonly record struct Interferer(long From, long To, int Channel, double Dbm);
