namespace RadioLint.Simulation;

/// <summary>How much of a signal is lost between two chips.</summary>
public interface IPropagation
{
    /// <summary>In dB, by the chips' numbers on the air; at least 0.</summary>
    double LossDb(int from, int to, int channel);
}
