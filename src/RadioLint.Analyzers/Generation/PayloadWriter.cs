using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>A payload as a readonly record struct: the same bytes as the emitted C, the same values refused.</summary>
internal static class PayloadWriter
{
    /// <summary>What no payload and no field can be called.</summary>
    public static readonly string[] Members =
    [
        "Payloads", "Size", "TryRead", "TryWrite", "Write", "FromValues", "Fault", "Store", "Checked", "Equals", "ReferenceEquals", "ToString", "GetHashCode", "GetType",
        "MemberwiseClone", "Finalize", "PrintMembers", "Deconstruct",
    ];

    public static void Write(CodeWriter code, HostPayload payload, List<Remark> clashes)
    {
        var parts = PayloadParts.Of(payload, clashes);
        code.Summary("What packets carry.");
        using (code.Block("public static partial class Payloads"))
        {
            code.Summary(
                $"Payload <c>{CSharp.Doc(payload.Payload.Name)}</c>, {CSharp.Number(payload.Length)} byte{(payload.Length == 1 ? "" : "s")} on air, "
                + $"{(payload.Payload.IsBigEndian ? "big" : "little")}-endian.");
            using (code.Block($"public readonly record struct {payload.Name}"))
            {
                code.Constant("int", "Size", CSharp.Number(payload.Length), "Length in bytes on air.");
                foreach (var constant in parts.Constants)
                    code.Constant(constant.Type, constant.Name, constant.Value, constant.Doc);
                WriteConstructor(code, payload.Name, parts);
                foreach (var member in parts.Members)
                {
                    code.Summary(member.Doc);
                    code.Line($"public {member.Type} {member.Name} {{ get; }}");
                }
                foreach (var value in parts.Values)
                {
                    code.Summary(value.Doc);
                    code.Line($"public {value.Type} {value.Name} => {value.FromRaw};");
                }
                WriteFromValues(code, payload.Name, parts);
                WriteTryRead(code, payload.Name, parts);
                WriteWriting(code, payload.Name, parts);
                WriteEnums(code, parts);
            }
        }
    }

    private static void WriteConstructor(CodeWriter code, string name, PayloadParts parts)
    {
        if (parts.Members.Count == 0)
            return;
        code.Summary("A payload of raw counts, as they go on air. Whether they fit is judged when it is written.");
        foreach (var member in parts.Members)
            code.Line($"/// <param name=\"{CSharp.Parameter(member.Name).TrimStart('@')}\">{member.Doc}</param>");
        using (code.Block($"public {name}({string.Join(", ", parts.Members.Select(member => $"{member.Type} {CSharp.Parameter(member.Name)}"))})"))
        {
            foreach (var member in parts.Members)
                code.Line($"{member.Name} = {CSharp.Parameter(member.Name)};");
        }
    }

    private static void WriteFromValues(CodeWriter code, string name, PayloadParts parts)
    {
        if (parts.Members.Count == 0)
            return;
        // One parameter a member: its value where it has one, else the member itself.
        var given = parts.Members.Select(member => (Member: member, Value: parts.Values.FirstOrDefault(value => value.Raw == member.Name))).ToList();
        code.Summary("A payload of values in their units, each rounded to the nearest count.");
        foreach (var (member, value) in given)
            code.Line($"/// <param name=\"{CSharp.Parameter(value?.Name ?? member.Name).TrimStart('@')}\">{value?.Doc ?? member.Doc}</param>");
        code.Line("/// <exception cref=\"global::System.ArgumentException\">A value does not fit; the message names the field and its limits.</exception>");
        using (code.Block($"public static {name} FromValues({string.Join(", ", given.Select(one => $"{one.Value?.Type ?? one.Member.Type} {CSharp.Parameter(one.Value?.Name ?? one.Member.Name)}"))})"))
        {
            var isChecked = parts.Checks.Count > 0;
            code.Line($"return {(isChecked ? "Checked(" : "")}new {name}(");
            for (var i = 0; i < given.Count; i++)
            {
                var argument = given[i].Value is { } value ? value.ToRaw(CSharp.Parameter(value.Name)) : CSharp.Parameter(given[i].Member.Name);
                code.Line($"    {argument}{(i < given.Count - 1 ? "," : isChecked ? "));" : ");")}");
            }
        }
        if (parts.Checks.Count == 0)
            return;
        code.Gap();
        code.Line($"private static {name} Checked({name} payload) => payload.Fault() is {{ }} fault ? throw new global::System.ArgumentException(fault) : payload;");
    }

    private static void WriteTryRead(CodeWriter code, string name, PayloadParts parts)
    {
        code.Summary("Reads a packet. False, and nothing read, unless it is exactly as long and every constant is right. Ranges are the sender's promise and not checked again.");
        code.Line("/// <param name=\"source\">The packet's bytes.</param>");
        code.Line("/// <param name=\"value\">What they say.</param>");
        using (code.Block($"public static bool TryRead(global::System.ReadOnlySpan<byte> source, out {name} value)"))
        {
            using (code.Block($"if ({string.Join(" || ", parts.Demands.Prepend("source.Length != Size"))})"))
            {
                code.Line("value = default;");
                code.Line("return false;");
            }
            code.Line();
            if (parts.Members.Count == 0)
            {
                code.Line("value = default;");
            }
            else
            {
                code.Line($"value = new {name}(");
                for (var i = 0; i < parts.Members.Count; i++)
                    code.Line($"    {parts.Members[i].Load}{(i == parts.Members.Count - 1 ? ");" : ",")}");
            }
            code.Line("return true;");
        }
        foreach (var reader in parts.Readers)
        {
            code.Gap();
            code.Lines(reader);
        }
    }

    private static void WriteWriting(CodeWriter code, string name, PayloadParts parts)
    {
        var isAlwaysGood = parts.Checks.Count == 0;
        code.Summary(isAlwaysGood
            ? "Writes the packet. False, and nothing written, only if there is no room."
            : "Writes the packet. False, and nothing written, if a value does not fit or there is no room.");
        code.Line("/// <param name=\"destination\">Where to; longer is fine.</param>");
        using (code.Block("public bool TryWrite(global::System.Span<byte> destination)"))
        {
            using (code.Block($"if (destination.Length < Size{(isAlwaysGood ? "" : " || Fault() is not null")})"))
                code.Line("return false;");
            code.Line();
            code.Line("Store(destination);");
            code.Line("return true;");
        }
        code.Summary("Writes the packet.");
        code.Line("/// <param name=\"destination\">Where to; longer is fine.</param>");
        code.Line($"/// <exception cref=\"global::System.ArgumentException\">{(isAlwaysGood ? "There is no room." : "A value does not fit, or there is no room; the message names the field and its limits.")}</exception>");
        using (code.Block("public void Write(global::System.Span<byte> destination)"))
        {
            if (!isAlwaysGood)
            {
                using (code.Block("if (Fault() is { } fault)"))
                    code.Line("throw new global::System.ArgumentException(fault);");
            }
            using (code.Block("if (destination.Length < Size)"))
                code.Line($"throw new global::System.ArgumentException({CSharp.Quoted($"{name} needs room for {CSharp.Number(parts.Length)} bytes")}, nameof(destination));");
            code.Line("Store(destination);");
        }
        WriteFault(code, parts);
        code.Gap();
        using (code.Block($"private {(parts.Members.Count == 0 ? "static " : "")}void Store(global::System.Span<byte> destination)"))
            code.Lines(parts.Stores);
    }

    private static void WriteFault(CodeWriter code, PayloadParts parts)
    {
        if (parts.Checks.Count == 0)
            return;
        code.Gap();
        code.Line("// What does not fit, and its limits; null when all does.");
        using (code.Block("private string? Fault()"))
        {
            foreach (var check in parts.Checks)
            {
                if (check.Count == 1)
                {
                    WriteCheck(code, check);
                    continue;
                }
                using (code.Block($"for (var i = 0; i < {CSharp.Number(check.Count)}; i++)"))
                    WriteCheck(code, check);
            }
            code.Line("return null;");
        }
    }

    private static void WriteCheck(CodeWriter code, PartCheck check)
    {
        using (code.Block($"if ({check.Refuses})"))
            code.Line($"return {CSharp.Quoted(check.Message)};");
    }

    private static void WriteEnums(CodeWriter code, PayloadParts parts)
    {
        foreach (var choice in parts.Choices)
        {
            code.Summary(choice.Doc);
            using (code.Block($"public enum {choice.Name} : {choice.Type}"))
            {
                foreach (var (member, written, value) in choice.Members)
                {
                    code.Summary($"<c>{CSharp.Doc(written)}</c>.");
                    code.Line($"{member} = {value},");
                }
            }
        }
    }
}
