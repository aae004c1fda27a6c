using RadioLint.Model;

namespace RadioLint.Cli.Emit;

/// <summary>One run of `emit`: renders, compares with what is on disk and with what was issued, and writes what may be written.</summary>
public static class EmitRun
{
    /// <summary>
    /// Writes the headers of a network that has no errors, and `NAME.radio.issued.json` beside the manifest. Nothing is written at
    /// all when a finding says that a file cannot be made, or when a file was edited by hand and <see cref="EmitOptions.Force"/> is off.
    /// </summary>
    /// <exception cref="IOException">A folder or file cannot be read or written.</exception>
    /// <exception cref="UnauthorizedAccessException">The same, for want of permission.</exception>
    public static EmitReport Execute(Network network, EmitOptions options) => throw new NotSupportedException();
}
