using RadioLint.Tests.Analyzers.Support;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>Correct host programs, which faults are seeded into.</summary>
public static class Programs
{
    public static IEnumerable<string> All => ["Gateway", "Office", "Bench"];

    public static string Read(string name) =>
        File.ReadAllText(Path.Combine(Repository.Tests, "HostCode", "Programs", name + ".cs.txt")).Replace("\r\n", "\n", StringComparison.Ordinal);

    /// <summary>All of them as one program beside the apiary's manifest, with SPI and a serial port to compile against.</summary>
    public static HostProgram Whole => HostProgram.OfApiary() with { Target = Target.Net100.WithSpi.WithPorts, Sources = [.. All.Select(Read)] };
}
