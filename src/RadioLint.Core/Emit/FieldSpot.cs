namespace RadioLint.Emit;

/// <summary>Where a field's items stand, in the packet and in the struct.</summary>
internal readonly record struct FieldSpot(string Name, string Macro, int At, int Size, int Count)
{
    /// <summary>One item in the struct to encode from.</summary>
    public string From => $"from->{Name}{Item}";

    public string Item => Count > 1 ? "[i]" : "";

    public string Place => Count == 1 ? FormattableString.Invariant($"{At}")
        : Size == 1 ? FormattableString.Invariant($"{At}u + i") : FormattableString.Invariant($"{At}u + ({Size}u * i)");

    public string Suffix => Count > 1 ? FormattableString.Invariant($"[{Count}]") : "";

    public string[] ForEach(params string[] lines) => Count == 1
        ? lines
        : [FormattableString.Invariant($"for (uint8_t i = 0u; i < {Count}u; ++i) {{"), .. lines.Select(line => "    " + line), "}"];
}
