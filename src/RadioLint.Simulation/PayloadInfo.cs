namespace RadioLint.Simulation;

/// <summary>What a FIFO keeps beside the bytes.</summary>
/// <param name="Length">In bytes.</param>
/// <param name="Pipe">The pipe of arrival, or the pipe whose acknowledgement it waits for; <see cref="NoPipe"/> for what is to be sent.</param>
/// <param name="Pid">Packet identity, given when it came in over SPI (nRF24L01+ Product Specification 1.0, 7.3.3.2 p29).</param>
/// <param name="NoAck">Asks for no acknowledgement.</param>
public readonly record struct PayloadInfo(int Length, int Pipe, int Pid, bool NoAck)
{
    public const int NoPipe = -1;
}
