namespace RadioLint.Simulation;

/// <summary>Errors of a channel that come from nothing on this air.</summary>
public interface IBitErrors
{
    /// <summary>Likelihood from 0 to 1 that one bit is turned over.</summary>
    /// <param name="receiver">The chip's number on the air.</param>
    /// <param name="powerDbm">Of the signal at the receiver.</param>
    double Likelihood(int receiver, int channel, AirRate rate, double powerDbm, long at);
}
