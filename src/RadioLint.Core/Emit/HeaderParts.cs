using System.Collections.Immutable;
using Scriban.Runtime;

namespace RadioLint.Emit;

// Parts of a node's header as templates see them. Texts are escaped for where the shipped templates put them; `comment` may be null.

/// <summary>`#define NAME VALUE` and what stands in its comment.</summary>
public sealed record Constant(string Name, string Value, string? Comment = null)
{
    /// <summary>The field that it belongs to; null for constants of nodes and links.</summary>
    public Model.Field? Field { get; init; }

    public ScriptObject ToScript() => new() { ["name"] = Name, ["value"] = Value, ["comment"] = Comment is null ? null : C.InComment(Comment) };
}

/// <summary>Constants under one heading.</summary>
public sealed record ConstantGroup(string Title, ImmutableArray<Constant> Constants)
{
    public ScriptObject ToScript() => new() { ["title"] = C.InComment(Title), ["constants"] = Script.List(Constants, constant => constant.ToScript()) };
}

/// <summary>One SPI transfer of a table: its count and bytes as C.</summary>
public sealed record TableFrame(string Bytes, string Name, string Meaning)
{
    public static TableFrame Of(Radio.Frame frame) => new(
        FormattableString.Invariant($"{frame.Bytes.Length}u, {C.Bytes(frame.Bytes)}"), frame.Name, frame.Meaning);

    public ScriptObject ToScript() => new() { ["bytes"] = Bytes, ["name"] = C.InComment(Name), ["meaning"] = C.InComment(Meaning) };
}

/// <summary>A table of frames. Its size counts bytes: a count before each frame, 0 at the end.</summary>
public sealed record FrameTable(string Name, int Size, ImmutableArray<TableFrame> Frames)
{
    public static FrameTable Of(string name, ImmutableArray<Radio.Frame> frames) =>
        new(name, frames.Sum(frame => frame.Bytes.Length + 1) + 1, [.. frames.Select(TableFrame.Of)]);

    public ScriptObject ToScript() => new() { ["name"] = Name, ["size"] = Size, ["frames"] = Script.List(Frames, frame => frame.ToScript()) };
}

/// <summary>A change of destination: the function's name and the frames that differ.</summary>
public sealed record Aim(string Name, string Peer, FrameTable Table)
{
    public ScriptObject ToScript() => new() { ["name"] = Name, ["peer"] = C.InComment(Peer), ["table"] = Table.ToScript() };
}

/// <summary>A function that sends one payload to one destination.</summary>
/// <param name="Towards">The table of its destination; null for a node with a single one.</param>
/// <param name="Word">The command word's macro.</param>
/// <param name="Length">The macro of the payload's length.</param>
public sealed record Sending(string Name, string Peer, string Payload, string? Towards, string Word, string Length)
{
    public ScriptObject ToScript() => new()
    {
        ["name"] = Name,
        ["peer"] = C.InComment(Peer),
        ["payload"] = C.InComment(Payload),
        ["towards"] = Towards,
        ["word"] = Word,
        ["length"] = Length,
    };
}

/// <summary>A function that leaves one payload to ride back in an acknowledgement.</summary>
/// <param name="Pipe">The macro of the pipe.</param>
/// <param name="Length">The macro of the payload's length.</param>
public sealed record Answering(string Name, string Peer, string Payload, string Pipe, string Length)
{
    public ScriptObject ToScript() => new()
    {
        ["name"] = Name,
        ["peer"] = C.InComment(Peer),
        ["payload"] = C.InComment(Payload),
        ["pipe"] = Pipe,
        ["length"] = Length,
    };
}

/// <summary>One payload's constants, struct and byte moves. Lines carry their own indentation, from column 0 on.</summary>
public sealed record PayloadBlock(string Name, string Ident, string Upper, int Length, string ByteOrder)
{
    public ImmutableArray<Constant> Constants { get; init; } = [];

    /// <summary>Members of the struct; none for a payload of constants only, which has no struct.</summary>
    public ImmutableArray<string> Members { get; init; } = [];

    /// <summary>Each clears `fits` when a value does not fit.</summary>
    public ImmutableArray<string> Checks { get; init; } = [];

    /// <summary>From `from` into `bytes`.</summary>
    public ImmutableArray<string> Stores { get; init; } = [];

    /// <summary>Each clears `fits` when a constant on air is another.</summary>
    public ImmutableArray<string> Demands { get; init; } = [];

    /// <summary>From `bytes` into `to`.</summary>
    public ImmutableArray<string> Loads { get; init; } = [];

    public ScriptObject ToScript() => new()
    {
        ["name"] = C.InComment(Name),
        ["ident"] = Ident,
        ["upper"] = Upper,
        ["length"] = Length,
        ["byte_order"] = ByteOrder,
        ["has_struct"] = !Members.IsEmpty,
        ["constants"] = Script.List(Constants, constant => constant.ToScript()),
        ["members"] = Script.List(Members, line => line),
        ["checks"] = Script.List(Checks, line => line),
        ["stores"] = Script.List(Stores, line => line),
        ["demands"] = Script.List(Demands, line => line),
        ["loads"] = Script.List(Loads, line => line),
    };
}

internal static class Script
{
    public static ScriptArray List<T>(ImmutableArray<T> items, Func<T, object> toScript)
    {
        var list = new ScriptArray(items.Length);
        foreach (var item in items)
            list.Add(toScript(item));
        return list;
    }
}
