namespace RadioLint.Analyzers.Generation;

/// <summary>Moves of one number between a span and a variable, in the payload's byte order.</summary>
internal static class Bytewise
{
    /// <summary>The expression of a number at a place of `source`.</summary>
    public static string Load(PayloadParts parts, string type, string place) => type switch
    {
        "byte" => $"source[{place}]",
        "sbyte" => $"unchecked((sbyte)source[{place}])",
        _ => $"global::System.Buffers.Binary.BinaryPrimitives.Read{Name(type)}{Order(parts)}(source.Slice({place}))",
    };

    /// <summary>The statement that puts a number at a place of `destination`.</summary>
    public static string Store(PayloadParts parts, string type, string place, string value) => type switch
    {
        "byte" => $"destination[{place}] = {value};",
        "sbyte" => $"destination[{place}] = unchecked((byte){value});",
        _ => $"global::System.Buffers.Binary.BinaryPrimitives.Write{Name(type)}{Order(parts)}(destination.Slice({place}), {value});",
    };

    private static string Order(PayloadParts parts) => parts.IsBigEndian ? "BigEndian" : "LittleEndian";

    private static string Name(string type) => type switch
    {
        "short" => "Int16",
        "ushort" => "UInt16",
        "int" => "Int32",
        "uint" => "UInt32",
        "long" => "Int64",
        _ => "UInt64",
    };
}
