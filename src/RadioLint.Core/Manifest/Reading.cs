using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>When to stop: nobody reads more findings than this, and each costs memory.</summary>
internal static class Reading
{
    /// <summary>The most faults that are collected from one manifest.</summary>
    public const int MostFaults = 10_000;

    /// <summary>True when there are enough; says so once, at the place where reading stops.</summary>
    public static bool HasEnough(List<Finding> findings, Place at)
    {
        if (findings.Count < MostFaults)
            return false;
        if (findings.Count == MostFaults)
            findings.Add(SyntaxError.At(at, FormattableString.Invariant($"there are more than {MostFaults} faults; what follows is not read")));
        return true;
    }
}
