using System.Collections.Immutable;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>
/// Everything that a template may mention about one node: what docs/templates.md lists. Templates lay out; hex, units, order and names
/// are settled here.
/// </summary>
public sealed record NodeHeader
{
    public required string Network { get; init; }
    public required string Node { get; init; }

    /// <summary>Stands before every function and table: `hive_1`.</summary>
    public required string Ident { get; init; }

    /// <summary>The manifest's file name, without folders.</summary>
    public required string Manifest { get; init; }

    /// <summary>The board in words.</summary>
    public required string Board { get; init; }

    /// <summary>The radio's part number.</summary>
    public required string Radio { get; init; }

    public required string Fingerprint { get; init; }
    public required string Digest { get; init; }

    /// <summary>Who this is.</summary>
    public required ImmutableArray<Constant> Identity { get; init; }

    /// <summary>What was planned, each with its unit.</summary>
    public required ImmutableArray<Constant> Planned { get; init; }

    /// <summary>CONFIG in each state.</summary>
    public required ImmutableArray<Constant> States { get; init; }

    public required ConstantGroup Pins { get; init; }
    public required ImmutableArray<ConstantGroup> Links { get; init; }
    public required FrameTable Table { get; init; }

    /// <summary>FEATURE as C when it must be made accessible first; null otherwise.</summary>
    public string? UnlockFeature { get; init; }

    /// <summary>The bits of RF_SETUP that this radio has, as C.</summary>
    public required string RfSetupMask { get; init; }

    /// <summary>Changes of destination; none for a node with one destination that never listens.</summary>
    public ImmutableArray<Aim> Aims { get; init; } = [];

    public required bool Listens { get; init; }

    /// <summary>What differs when it listens after sending; null when only CE does.</summary>
    public FrameTable? ListenTable { get; init; }

    /// <summary>What it sends, one a link.</summary>
    public ImmutableArray<Sending> Sends { get; init; } = [];

    /// <summary>What it returns in acknowledgements, one a link.</summary>
    public ImmutableArray<Answering> Answers { get; init; } = [];

    /// <summary>Whether CE is always high.</summary>
    public bool HasTiedCe { get; init; }

    public required ImmutableArray<PayloadBlock> Payloads { get; init; }

    /// <summary>The file that the header is written to.</summary>
    public string FileName => FileNameOf(Ident);

    public static string FileNameOf(string ident) => ident + "_radio.h";

    // By hand, not by reflection: works ahead of time, and these keys are the templates' public names.
    public ScriptObject ToScript() => new()
    {
        ["network"] = C.InComment(Network),
        ["node"] = C.InComment(Node),
        ["ident"] = Ident,
        ["upper"] = C.Upper(Ident),
        ["manifest"] = C.InComment(Manifest),
        ["board"] = C.InComment(Board),
        ["radio"] = C.InComment(Radio),
        ["contract"] = EmitSet.Contract,
        ["fingerprint"] = Fingerprint,
        ["digest"] = Digest,
        ["identity"] = Script.List(Identity, constant => constant.ToScript()),
        ["planned"] = Script.List(Planned, constant => constant.ToScript()),
        ["states"] = Script.List(States, constant => constant.ToScript()),
        ["pins"] = Pins.ToScript(),
        ["links"] = Script.List(Links, group => group.ToScript()),
        ["table"] = Table.ToScript(),
        ["unlock_feature"] = UnlockFeature,
        ["rf_setup_mask"] = RfSetupMask,
        ["aims"] = Script.List(Aims, aim => aim.ToScript()),
        ["listens"] = Listens,
        ["listen_table"] = ListenTable?.ToScript(),
        ["sends"] = Script.List(Sends, sending => sending.ToScript()),
        ["answers"] = Script.List(Answers, answering => answering.ToScript()),
        ["ce_is_tied"] = HasTiedCe,
        ["payloads"] = Script.List(Payloads, payload => payload.ToScript()),
    };
}
