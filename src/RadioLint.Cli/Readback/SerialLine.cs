using System.IO.Ports;

namespace RadioLint.Cli.Readback;

/// <summary>A serial port that is listened to: 8 bits, no parity, one stop bit. Every wait is bounded.</summary>
/// <remarks>
/// The general-purpose System.IO.Ports, as it knows every system's ports and compiles ahead of time without a warning; on Unix a small native library
/// of its own then lies beside the program (docs/readback.md).
/// </remarks>
internal sealed class SerialLine : IDisposable
{
    /// <summary>No part that is known here is faster.</summary>
    public const int FastestBaud = 4_000_000;

    private readonly SerialPort port;
    private readonly string name;

    private SerialLine(SerialPort port, string name)
    {
        this.port = port;
        this.name = name;
    }

    /// <summary>Opens a port.</summary>
    /// <exception cref="CannotWorkException">There is no such port, it is another's, or it does not take the speed.</exception>
    public static SerialLine Open(string name, string path, int baud)
    {
        // The package says of all three that access is denied.
        if (!OperatingSystem.IsWindows() && !File.Exists(path))
            throw new CannotWorkException($"there is no port `{name}`", "look at its name with the adapter plugged in, such as /dev/ttyUSB0 or /dev/ttyACM0");
        var port = new SerialPort(path, baud, Parity.None, 8, StopBits.One);
        try
        {
            port.Open();
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or ArgumentException or InvalidOperationException or IOException or PlatformNotSupportedException)
        {
            port.Dispose();
            throw new CannotWorkException(
                FormattableString.Invariant($"cannot open `{name}` at {baud} baud: it is no serial port, another program has it, there is no permission, or it has no such speed"),
                "close other terminals; on Linux your user needs the group of serial ports, often dialout");
        }
        Ready(port);
        return new(port, name);
    }

    /// <summary>The bytes that came within a time; 0 when none did, -1 when the port has gone.</summary>
    public int Read(byte[] buffer, TimeSpan within)
    {
        port.ReadTimeout = Math.Max(1, (int)within.TotalMilliseconds);
        try
        {
            return port.BaseStream.Read(buffer, 0, buffer.Length) is > 0 and var count ? count : -1;
        }
        catch (TimeoutException)
        {
            return 0;
        }
        catch (Exception fault) when (fault is IOException or ObjectDisposedException or InvalidOperationException or OperationCanceledException or UnauthorizedAccessException)
        {
            // Unplugged: each system has its own way to say it.
            return -1;
        }
    }

    public void Dispose()
    {
        try
        {
            port.Dispose();
        }
        catch (Exception fault) when (fault is IOException or InvalidOperationException or UnauthorizedAccessException)
        {
            // One that was unplugged cannot be closed, and need not.
        }
    }

    public override string ToString() => name;

    // Ports by USB send nothing before the other side is ready; a pseudo-terminal has no such line.
    private static void Ready(SerialPort port)
    {
        try
        {
            port.DtrEnable = true;
        }
        catch (Exception fault) when (fault is IOException or InvalidOperationException or UnauthorizedAccessException)
        {
            return;
        }
    }
}
