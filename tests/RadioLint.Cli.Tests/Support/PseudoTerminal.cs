using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;
using Xunit;

namespace RadioLint.Tests.Support;

/// <summary>A serial port without wires: what is written here comes in at <see cref="Port"/>. POSIX.1-2024: posix_openpt, grantpt, unlockpt, ptsname_r.</summary>
public sealed class PseudoTerminal : IDisposable
{
    private const int ReadWrite = 0x2;
    private const int NoControllingTerminal = 0x100;

    // Else a process that another test starts meanwhile keeps the port from going.
    private const int NotInherited = 0x80000;

    private readonly FileStream master;

    public PseudoTerminal()
    {
        var handle = posix_openpt(ReadWrite | NoControllingTerminal | NotInherited);
        Assert.True(handle >= 0, "no pseudo-terminal is to be had");
        Assert.Equal((0, 0), (grantpt(handle), unlockpt(handle)));
        var name = new byte[256];
        Assert.Equal(0, ptsname_r(handle, name, name.Length));
        Port = Encoding.ASCII.GetString(name, 0, Array.IndexOf(name, (byte)0));
        master = new(new SafeFileHandle(handle, ownsHandle: true), FileAccess.Write, bufferSize: 0);
    }

    /// <summary>The path that another program opens.</summary>
    public string Port { get; }

    public void Write(string text) => master.Write(Encoding.ASCII.GetBytes(text));

    /// <summary>As if it were unplugged.</summary>
    public void Dispose() => master.Dispose();

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int posix_openpt(int flags);

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int grantpt(int handle);

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int unlockpt(int handle);

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int ptsname_r(int handle, byte[] name, nint length);
}
