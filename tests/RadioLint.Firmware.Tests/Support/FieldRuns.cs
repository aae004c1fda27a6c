using RadioLint.Cli.Emit;
using RadioLint.Emit;

namespace RadioLint.Tests.Firmware.Support;

/// <summary>A network of a hub and two posts, and runs that emit it into a folder of the test's own.</summary>
public abstract class FieldRuns : IDisposable
{
    protected const string Field = FieldManifest.Head + """
        links: [ { from: post, to: hub, payload: reading, every: 1 min } ]
        payloads: { reading: { temperature: int16 0.1 degC, version: uint8 = 4 } }
        """;

    /// <summary>What a run without programs writes.</summary>
    protected static readonly string[] Headers = ["hub_radio.h", "post_east_radio.h", "post_north_radio.h", "radio_contract.h", "radio_link.h"];

    protected Workshop Shop { get; } = new();

    protected string Manifest => Path.Combine(Shop.Folder, "field.radio.yaml");

    protected string Out => Path.Combine(Shop.Folder, "out").Replace('\\', '/');

    protected string Record => Path.Combine(Shop.Folder, "field.radio.issued.json");

    public void Dispose()
    {
        Shop.Dispose();
        GC.SuppressFinalize(this);
    }

    protected EmitReport Run(string manifest, bool check = false, bool force = false, bool programs = false, params string[] nodes) => EmitRun.Execute(
        Emitted.Network("field.radio.yaml", manifest),
        new() { Manifest = Manifest, Out = Out, CheckOnly = check, Force = force, Programs = programs, Nodes = [.. nodes] });

    protected static IEnumerable<string> Names(IEnumerable<string> paths) => paths.Select(path => Path.GetFileName(path));
}
