using System.Runtime.InteropServices;

namespace RadioLint.Cli.Terminal;

/// <summary>Ctrl-C, and whatever else asks a process to end: it is told, and ends by itself.</summary>
internal sealed class StopSignal : IDisposable
{
    private readonly ManualResetEventSlim asked = new();
    private readonly List<PosixSignalRegistration> signals = [];

    public StopSignal()
    {
        foreach (var signal in new[] { PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP })
            signals.Add(PosixSignalRegistration.Create(signal, Meet));
    }

    /// <summary>Waits; true when the process is to end, as soon as that is asked.</summary>
    public bool WaitFor(TimeSpan time) => asked.Wait(time);

    public void Dispose()
    {
        foreach (var signal in signals)
            signal.Dispose();
        asked.Dispose();
    }

    private void Meet(PosixSignalContext context)
    {
        context.Cancel = true;
        asked.Set();
    }
}
