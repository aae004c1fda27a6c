using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>Named bits of a field, each a member of its own: `FlagsTare`. The first stands in the least significant place.</summary>
internal sealed class BitParts(PayloadParts parts, Field stated, int at, NameTable names)
{
    // 24 bits have no primitive of their own.
    private string Whole => stated.ItemSize switch { 1 => "byte", 2 => "ushort", 3 => "three", _ => "uint" };

    private string Loaded => stated.ItemSize == 3
        ? $"global::RadioLint.PacketBytes.ReadThree(source.Slice({CSharp.Number(at)}), isBigEndian: {CSharp.Flag(parts.IsBigEndian)})"
        : Bytewise.Load(parts, Whole, CSharp.Number(at));

    public void Add()
    {
        var (packed, shift) = (new List<string>(), 0);
        foreach (var run in stated.Bits)
        {
            var name = names.Take($"{stated.Name} {run.Name}");
            var doc = $"<c>{CSharp.Doc(run.Name)}</c> of <c>{CSharp.Doc(stated.Name)}</c>, {CSharp.Number(run.Width)} bit{(run.Width == 1 ? "" : "s")}.";
            var down = shift == 0 ? Loaded : $"({Loaded} >> {CSharp.Number(shift)})";
            var type = run.Width == 1 ? "bool" : run.Width <= 8 ? "byte" : run.Width <= 16 ? "ushort" : "uint";
            var mask = CSharp.Count("uint", run.Width == 32 ? uint.MaxValue : (1u << run.Width) - 1);
            parts.Members.Add(new(type, name, doc, run.Width == 1 ? $"({down} & 1) != 0" : $"({type})({down} & {mask})"));
            var up = run.Width == 1 ? $"({name} ? 1U : 0U)" : $"(uint){name}";
            packed.Add(shift == 0 ? up : $"({up} << {CSharp.Number(shift)})");
            if (run.Width is not (1 or 8 or 16 or 32))
                parts.Checks.Add(new($"{name} > {mask.TrimEnd('U')}", $"{name} must lie from 0 to {mask.TrimEnd('U')}"));
            shift += run.Width;
        }
        var sum = string.Join(" | ", packed);
        parts.Stores.Add(stated.ItemSize == 3
            ? $"global::RadioLint.PacketBytes.WriteThree({sum}, destination.Slice({CSharp.Number(at)}), isBigEndian: {CSharp.Flag(parts.IsBigEndian)});"
            : Bytewise.Store(parts, Whole, CSharp.Number(at), Whole == "uint" ? sum : $"({Whole})({sum})"));
    }
}
