using System.Numerics;
using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>From one field to its pieces of the struct.</summary>
internal sealed class FieldParts
{
    private readonly PayloadParts parts;
    private readonly Field stated;
    private readonly int at;
    private readonly NameTable names;
    private readonly List<Remark> clashes;

    private FieldParts(PayloadParts parts, Field stated, int at, NameTable names, List<Remark> clashes) =>
        (this.parts, this.stated, this.at, this.names, this.clashes) = (parts, stated, at, names, clashes);

    private bool IsArray => stated.Count > 1;

    private string Unit => stated.Unit is { } unit ? " " + unit : "";

    // A count that has a unit or a scale is not the value.
    private bool HasValue => stated.Kind is FieldKind.Integer ? stated.Unit is not null || stated.Scale != 1 : stated.Kind is FieldKind.Float && stated.Scale != 1;

    private string IntegerType => (stated.ItemSize, stated.IsSigned) switch
    {
        (1, true) => "sbyte",
        (1, false) => "byte",
        (2, true) => "short",
        (2, false) => "ushort",
        (4, true) => "int",
        (4, false) => "uint",
        (8, true) => "long",
        _ => "ulong",
    };

    public static void Add(PayloadParts parts, Field stated, int at, NameTable names, List<Remark> clashes)
    {
        var one = new FieldParts(parts, stated, at, names, clashes);
        switch (stated.Kind)
        {
            case FieldKind.Integer when stated.Constant is { } constant:
                one.AddConstant(constant);
                break;
            case FieldKind.Integer:
                one.AddInteger();
                break;
            case FieldKind.Choice:
                one.AddChoice();
                break;
            case FieldKind.Float when stated.Constant is { } constant:
                one.AddFloatConstant(constant);
                break;
            case FieldKind.Float:
                one.AddFloat();
                break;
            case FieldKind.Text:
                one.AddText();
                break;
            case FieldKind.Bytes:
                one.AddBytes();
                break;
            case FieldKind.Bits:
                new BitParts(parts, stated, at, names).Add();
                break;
            case FieldKind.CompilerDependent:
            default:
                throw new InvalidOperationException($"the size of {stated.Name} is not known");
        }
    }

    private void AddConstant(decimal constant)
    {
        var name = Take("Value") + "Value";
        var count = CSharp.Count(IntegerType, Counts.Exactly(constant, stated.Scale)!.Value);
        parts.Constants.Add(new(IntegerType, name, count, $"<c>{CSharp.Doc(stated.Name)}</c>: sent always, and demanded when read{CountsOf(", ")}."));
        parts.Store(stated.Count, item => Bytewise.Store(parts, IntegerType, Place(item), name));
        for (var i = 0; i < stated.Count; i++)
            parts.Demands.Add($"{Bytewise.Load(parts, IntegerType, PlaceOf(i))} != {name}");
    }

    private void AddFloatConstant(decimal constant)
    {
        var name = Take("Value") + "Value";
        var value = Counts.Nearest(constant, stated.Scale);
        var bits = BitConverter.ToUInt32(BitConverter.GetBytes(value), 0);
        parts.Constants.Add(new("float", name, CSharp.Float(value), $"<c>{CSharp.Doc(stated.Name)}</c>: sent always, and demanded when read{CountsOf(", ")}."));
        parts.Store(stated.Count, item => Bytewise.Store(parts, "uint", Place(item), CSharp.Count("uint", bits)));
        for (var i = 0; i < stated.Count; i++)
            parts.Demands.Add($"{Bytewise.Load(parts, "uint", PlaceOf(i))} != {CSharp.Count("uint", bits)}");
    }

    private void AddInteger()
    {
        var name = HasValue ? Take("Raw", "RawLow", "RawHigh", "RawItems") : Take("Low", "High", "Items");
        var raw = HasValue ? name + "Raw" : name;
        AddMember(IntegerType, raw, $"{What()}{CountsOf(": ")}{RangeInWords()}.", place => Bytewise.Load(parts, IntegerType, place));
        AddRange(raw);
        if (HasValue)
            AddValue(name, raw, IntegerType, "ToInt64", "ToUInt64");
        parts.Store(stated.Count, item => Bytewise.Store(parts, IntegerType, Place(item), raw + item));
    }

    // The type's own limits need no comparison.
    private void AddRange(string raw)
    {
        if (FieldLimits.OfRange(stated) is not var (low, high))
            return;
        var (least, most) = FieldLimits.OfType(stated);
        parts.Constants.Add(new(IntegerType, raw + "Low", CSharp.Count(IntegerType, low), $"The least {raw} that is sent."));
        parts.Constants.Add(new(IntegerType, raw + "High", CSharp.Count(IntegerType, high), $"The greatest {raw} that is sent."));
        var (from, to) = (stated.Range!.Value.Low, stated.Range.Value.High);
        var message = $"{raw} must lie from {low} to {high}" + (stated.Scale == 1 ? Unit : FormattableString.Invariant($", that is {from} to {to}{Unit}"));
        if (low > least || high < most)
            AddCheck(item => low <= least ? $"{raw}{item} > {raw}High" : high >= most ? $"{raw}{item} < {raw}Low" : $"{raw}{item} < {raw}Low || {raw}{item} > {raw}High", message);
    }

    private void AddFloat()
    {
        var name = HasValue ? Take("Raw", "RawLow", "RawHigh", "RawItems") : Take("Low", "High", "Items");
        var raw = HasValue ? name + "Raw" : name;
        AddMember("float", raw, $"{What()}{CountsOf(", ")}{RangeInWords()}.", place => $"global::RadioLint.PacketBytes.ToSingle({Bytewise.Load(parts, "uint", place)})");
        if (stated.Range is { } range)
        {
            var (low, high) = (CSharp.Float(Counts.Nearest(range.Low, stated.Scale)), CSharp.Float(Counts.Nearest(range.High, stated.Scale)));
            parts.Constants.Add(new("float", raw + "Low", low, $"The least {raw} that is sent."));
            parts.Constants.Add(new("float", raw + "High", high, $"The greatest {raw} that is sent."));
            // Written so that a number which is none is refused too.
            AddCheck(item => $"!({raw}{item} >= {raw}Low && {raw}{item} <= {raw}High)", $"{raw} must lie from {low.TrimEnd('F')} to {high.TrimEnd('F')}");
        }
        if (HasValue)
            AddValue(name, raw, "float", "ToSingle", "ToSingle");
        parts.Store(stated.Count, item => Bytewise.Store(parts, "uint", Place(item), $"global::RadioLint.PacketBytes.ToBits({raw}{item})"));
    }

    private void AddChoice()
    {
        var name = Take("Choice", "Items");
        var type = name + "Choice";
        var members = new NameTable("Value", [], clashes);
        var last = BigInteger.Min(stated.Choices.Length - 1, FieldLimits.OfType(stated).High);
        parts.Choices.Add(new(type, IntegerType, $"What <c>{CSharp.Doc(stated.Name)}</c> may be.",
            [.. stated.Choices.Take((int)last + 1).Select((choice, i) => (members.Take(choice), choice, CSharp.Number(i)))]));
        AddMember(type, name, $"{What()}, one of its names; another number may arrive.", place => $"({type}){Bytewise.Load(parts, IntegerType, place)}");
        if (last < FieldLimits.OfType(stated).High)
            AddCheck(item => $"({IntegerType}){name}{item} > {last}", $"{name} must be one of {string.Join(", ", stated.Choices)}");
        parts.Store(stated.Count, item => Bytewise.Store(parts, IntegerType, Place(item), $"({IntegerType}){name}{item}"));
    }

    private void AddText()
    {
        var name = Take("Items");
        var room = CSharp.Number(stated.ItemSize);
        AddMember("string", name, $"{What()}, at most {room} byte{(stated.ItemSize == 1 ? "" : "s")} of UTF-8; up to the zero byte when read.",
            place => $"global::RadioLint.PacketBytes.ReadText(source.Slice({place}, {room}))");
        AddCheck(item => $"!global::RadioLint.PacketBytes.TextFits({name}{item}, {room})", $"{name} must be text without a zero of at most {room} bytes of UTF-8");
        parts.Store(stated.Count, item => $"global::RadioLint.PacketBytes.WriteText({name}{item}, destination.Slice({Place(item)}, {room}));");
    }

    private void AddBytes()
    {
        var name = Take("Items");
        var room = CSharp.Number(stated.ItemSize);
        AddMember("global::RadioLint.PacketItems<byte>", name, $"{What()}, {room} byte{(stated.ItemSize == 1 ? "" : "s")}.",
            place => $"new global::RadioLint.PacketItems<byte>(source.Slice({place}, {room}))");
        AddCheck(item => $"{name}{item}.Count != {room}", $"{name} must be {room} byte{(stated.ItemSize == 1 ? "" : "s")} long");
        parts.Store(stated.Count, item => $"{name}{item}.CopyTo(destination.Slice({Place(item)}, {room}));");
    }

    private void AddMember(string type, string name, string doc, Func<string, string> load)
    {
        if (!IsArray)
        {
            parts.Members.Add(new(type, name, doc, load(PlaceOf(0))));
            return;
        }
        var (items, count) = ($"global::RadioLint.PacketItems<{type}>", CSharp.Number(stated.Count));
        parts.Members.Add(new(items, name, $"{doc.TrimEnd('.')}; {count} items.", $"{name}Items(source)"));
        // Of another length it is refused before its items are looked at.
        parts.Checks.Add(new($"{name}.Count != {count}", $"{name} must have {count} items"));
        parts.Readers.Add(
        [
            $"private static {items} {name}Items(global::System.ReadOnlySpan<byte> source)",
            "{",
            $"    var items = new {type}[{count}];",
            $"    for (var i = 0; i < {count}; i++)",
            "    {",
            $"        items[i] = {load(Place("[i]"))};",
            "    }",
            $"    return new {items}(items);",
            "}",
        ]);
    }

    private void AddValue(string name, string raw, string type, string toSigned, string toUnsigned)
    {
        var (times, over) = Counts.Fraction(stated.Scale);
        var factor = (times.IsOne ? "" : $" * {CSharp.Double(times)}") + (over.IsOne ? "" : $" / {CSharp.Double(over)}");
        string Limit(BigInteger limit) => CSharp.Count(stated.IsSigned ? "long" : "ulong", limit);
        var limits = type == "float" ? "" : FieldLimits.OfType(stated) is var (low, high) ? $", {Limit(low)}, {Limit(high)}" : "";
        var to = stated.IsSigned ? toSigned : toUnsigned;
        string Raw(string value, string named) =>
            $"{(type is "float" or "long" or "ulong" ? "" : $"({type})")}global::RadioLint.PacketCounts.{to}({value}, {CSharp.Double(times)}, {CSharp.Double(over)}{limits}, {CSharp.Quoted(named)})";
        var doc = $"{What()} in {CSharp.Doc(stated.Unit ?? "its unit")}, {(stated.Scale == 1 ? $"the value of {raw}" : $"{raw} x {CSharp.Doc(Shown(stated.Scale))}")}{RangeInWords(inUnit: true)}.";
        parts.Values.Add(IsArray
            ? new("global::RadioLint.PacketItems<double>", name, raw, $"{raw}.ConvertAll(static one => {(factor.Length == 0 ? "(double)one" : "one" + factor)})", doc,
                parameter => $"{parameter}.ConvertAll(static one => {Raw("one", name)})")
            : new("double", name, raw, raw + factor, doc, parameter => Raw(parameter, name)));
    }

    private void AddCheck(Func<string, string> refuses, string message) =>
        parts.Checks.Add(new(refuses(IsArray ? "[i]" : ""), message, stated.Count));

    private string Take(params string[] derived) => names.Take(stated.Name, derived);

    private string What() => $"<c>{CSharp.Doc(stated.Name)}</c>{(stated.Role is { } role && role != stated.Name ? $", the {CSharp.Doc(role)}" : "")}";

    private string CountsOf(string lead) => stated.Scale != 1 ? $"{lead}counts of {CSharp.Doc(Shown(stated.Scale) + Unit)}"
        : stated.Unit is { } unit ? $"{lead}in {CSharp.Doc(unit)}"
        : "";

    private string RangeInWords(bool inUnit = false)
    {
        if (stated.Range is not var (low, high))
            return "";
        if (inUnit || stated.Kind is FieldKind.Float)
            return CSharp.Doc(FormattableString.Invariant($", {low} to {high}{Unit}"));
        return FieldLimits.OfRange(stated) is var (from, to) ? FormattableString.Invariant($", {from} to {to}") : "";
    }

    private static string Shown(decimal value) => FormattableString.Invariant($"{value}");

    private string PlaceOf(int item) => CSharp.Number(at + (item * stated.ItemSize));

    private string Place(string item) => item.Length == 0 ? CSharp.Number(at)
        : stated.ItemSize == 1 ? $"{CSharp.Number(at)} + i"
        : $"{CSharp.Number(at)} + ({CSharp.Number(stated.ItemSize)} * i)";
}
