using Microsoft.CodeAnalysis;

namespace RadioLint.Analyzers.HostCode;

/// <summary>How the runtime lays a struct out: in order of the fields, each at a multiple of its own size, unless attributes say otherwise.</summary>
internal sealed class StructLayout
{
    private const int DeepestNesting = 8;

    /// <summary>Bytes in all.</summary>
    public int Size { get; private set; }

    /// <summary>Fields in order of their offsets.</summary>
    public List<(IFieldSymbol Field, int Offset, int Size)> Fields { get; } = [];

    /// <summary>Fields whose bytes are not the same everywhere, with the reason.</summary>
    public List<(IFieldSymbol Field, string Why)> Unfit { get; } = [];

    /// <summary>Null when nothing certain can be said.</summary>
    public static StructLayout? Of(INamedTypeSymbol type, int depth = 0)
    {
        if (depth > DeepestNesting || type.IsGenericType)
            return null;
        var attribute = type.GetAttributes().FirstOrDefault(one => one.AttributeClass?.Name == "StructLayoutAttribute");
        var kind = attribute?.ConstructorArguments is [{ Value: { } value }] ? Convert.ToInt32(value, System.Globalization.CultureInfo.InvariantCulture) : 0;
        if (kind == 3)
            return null;
        var pack = Named(attribute, "Pack") is var written and > 0 ? written : 8;
        var layout = new StructLayout();
        var (at, widest) = (0, 1);
        foreach (var field in type.GetMembers().OfType<IFieldSymbol>().Where(field => !field.IsStatic))
        {
            if (WhyUnfit(field) is { } why)
            {
                layout.Unfit.Add((field.AssociatedSymbol is IPropertySymbol ? field : field, why));
                continue;
            }
            if (SizeOf(field, layout, depth) is not var (size, alignment))
                return null;
            alignment = Math.Min(alignment, pack);
            widest = Math.Max(widest, alignment);
            var offset = kind == 2 ? Offset(field) : (at + alignment - 1) / alignment * alignment;
            layout.Fields.Add((field, offset, size));
            at = Math.Max(at, offset + size);
        }
        layout.Fields.Sort((left, right) => left.Offset.CompareTo(right.Offset));
        layout.Size = Math.Max((at + widest - 1) / widest * widest, Named(attribute, "Size"));
        return layout;
    }

    private static string? WhyUnfit(IFieldSymbol field) => field.Type.SpecialType switch
    {
        SpecialType.System_Boolean => "a bool, of which every byte but 0 is true and only 1 is well formed",
        SpecialType.System_Char => "a char, two bytes of UTF-16",
        SpecialType.System_Decimal => "a decimal, 16 bytes of a form that no firmware has",
        SpecialType.System_IntPtr or SpecialType.System_UIntPtr => "as wide as the machine's addresses",
        SpecialType.System_String => "a reference to text, not its bytes",
        _ when field.Type.IsReferenceType => "a reference, not bytes",
        _ when field.Type.TypeKind is TypeKind.Pointer or TypeKind.FunctionPointer && !field.IsFixedSizeBuffer => "as wide as the machine's addresses",
        _ => null,
    };

    private static (int Size, int Alignment)? SizeOf(IFieldSymbol field, StructLayout layout, int depth)
    {
        if (field.IsFixedSizeBuffer)
            return field.Type is IPointerTypeSymbol pointer && Width(pointer.PointedAtType) is { } item ? (item * field.FixedSize, item) : null;
        if (Width(field.Type) is { } width)
            return (width, width);
        if (field.Type is not INamedTypeSymbol { TypeKind: TypeKind.Struct } inner || inner.DeclaringSyntaxReferences.IsEmpty || Of(inner, depth + 1) is not { } nested)
            return null;
        layout.Unfit.AddRange(nested.Unfit);
        var alignment = nested.Fields.Select(one => Math.Min(one.Size, 8)).DefaultIfEmpty(1).Max();
        var length = inner.GetAttributes().FirstOrDefault(one => one.AttributeClass?.Name == "InlineArrayAttribute")?.ConstructorArguments is [{ Value: int items }] ? items : 1;
        return (nested.Size * length, alignment);
    }

    private static int? Width(ITypeSymbol type) => (type is INamedTypeSymbol { EnumUnderlyingType: { } underlying } ? underlying : type).SpecialType switch
    {
        SpecialType.System_SByte or SpecialType.System_Byte => 1,
        SpecialType.System_Int16 or SpecialType.System_UInt16 => 2,
        SpecialType.System_Int32 or SpecialType.System_UInt32 or SpecialType.System_Single => 4,
        SpecialType.System_Int64 or SpecialType.System_UInt64 or SpecialType.System_Double => 8,
        _ => null,
    };

    private static int Offset(IFieldSymbol field) =>
        field.GetAttributes().FirstOrDefault(one => one.AttributeClass?.Name == "FieldOffsetAttribute")?.ConstructorArguments is [{ Value: int offset }] ? offset : 0;

    private static int Named(AttributeData? attribute, string name) =>
        attribute?.NamedArguments.FirstOrDefault(one => one.Key == name).Value.Value is int value ? value : 0;
}
