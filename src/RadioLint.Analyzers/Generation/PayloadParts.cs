using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>A constant of a payload.</summary>
internal sealed record PartConstant(string Type, string Name, string Value, string Doc);

/// <summary>What the struct holds: a raw count as it goes on air.</summary>
/// <param name="Load">The expression that reads it from `source`.</param>
internal sealed record PartMember(string Type, string Name, string Doc, string Load);

/// <summary>A raw count's value in its unit.</summary>
/// <param name="Raw">The member that it is the value of.</param>
/// <param name="ToRaw">From a parameter's name to the expression of the raw count.</param>
internal sealed record PartValue(string Type, string Name, string Raw, string FromRaw, string Doc, Func<string, string> ToRaw);

/// <summary>A condition that refuses a payload, and what is then said.</summary>
/// <param name="Count">How many items it looks at, as `[i]`.</param>
internal sealed record PartCheck(string Refuses, string Message, int Count = 1);

/// <summary>The names of a choice's values.</summary>
internal sealed record PartChoice(string Name, string Type, string Doc, List<(string Name, string Written, string Value)> Members);

/// <summary>The pieces of a payload's struct, in the order of its fields.</summary>
internal sealed class PayloadParts(HostPayload payload)
{
    public string Name { get; } = payload.Name;

    /// <summary>Bytes on air.</summary>
    public int Length { get; } = payload.Length;

    public bool IsBigEndian { get; } = payload.Payload.IsBigEndian;

    public List<PartConstant> Constants { get; } = [];
    public List<PartMember> Members { get; } = [];
    public List<PartValue> Values { get; } = [];
    public List<PartCheck> Checks { get; } = [];
    public List<PartChoice> Choices { get; } = [];

    /// <summary>From the members into `destination`.</summary>
    public List<string> Stores { get; } = [];

    /// <summary>Conditions under which `source` is not this payload.</summary>
    public List<string> Demands { get; } = [];

    /// <summary>Functions that read several items.</summary>
    public List<List<string>> Readers { get; } = [];

    public static PayloadParts Of(HostPayload payload, List<Remark> clashes)
    {
        var parts = new PayloadParts(payload);
        var names = new NameTable("Field", PayloadWriter.Members.Append(payload.Name), clashes);
        var end = 0;
        foreach (var (field, offset) in payload.Payload.Layout())
        {
            parts.Pad(end, offset);
            FieldParts.Add(parts, field, offset, names, clashes);
            end = offset + field.Size;
        }
        parts.Pad(end, Math.Max(payload.Length, payload.Payload.Size));
        return parts;
    }

    /// <summary>One line for one item, a loop for several. `destination` is not used by name here.</summary>
    public void Store(int count, Func<string, string> line)
    {
        if (count == 1)
        {
            Stores.Add(line(""));
            return;
        }
        Stores.AddRange([$"for (var i = 0; i < {CSharp.Number(count)}; i++)", "{", "    " + line("[i]"), "}"]);
    }

    private void Pad(int from, int to)
    {
        if (to > from)
            Stores.Add($"destination.Slice({CSharp.Number(from)}, {CSharp.Number(to - from)}).Clear();");
    }
}
