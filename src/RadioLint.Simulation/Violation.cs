namespace RadioLint.Simulation;

/// <summary>One thing that the data sheet does not allow.</summary>
/// <param name="At">When, in ticks.</param>
/// <param name="Subject">Register address or command word; 0 for pins.</param>
/// <param name="Value">What was written, or a length.</param>
public readonly record struct Violation(ViolationKind Kind, long At, byte Subject, int Value);
