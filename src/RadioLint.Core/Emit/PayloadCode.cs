using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Emit;

/// <summary>From a payload to the C that moves it in and out of a packet byte by byte.</summary>
internal sealed class PayloadCode
{
    private readonly Payload payload;
    private readonly string upper;
    private readonly string order;
    private readonly List<Constant> constants = [];
    private readonly List<string> members = [];
    private readonly List<string> checks = [];
    private readonly List<string> stores = [];
    private readonly List<string> demands = [];
    private readonly List<string> loads = [];

    private PayloadCode(Payload payload, string upper)
    {
        this.payload = payload;
        this.upper = upper;
        order = payload.IsBigEndian ? "big" : "little";
    }

    /// <param name="ident">Stands before every function and the struct: `hive_1_reading`.</param>
    /// <param name="length">Bytes on air; what the fields leave over is sent as 0.</param>
    public static PayloadBlock Of(Payload payload, string ident, int length)
    {
        var code = new PayloadCode(payload, C.Upper(ident));
        var end = 0;
        foreach (var (field, offset) in payload.Layout())
        {
            code.Pad(end, offset);
            code.Add(field, offset);
            end = offset + field.Size;
        }
        code.Pad(end, Math.Max(length, payload.Size));
        return new(payload.Name, ident, code.upper, length, payload.IsBigEndian ? "big-endian" : "little-endian")
        {
            Constants = [.. code.constants],
            Members = [.. code.members],
            Checks = [.. code.checks],
            Stores = [.. code.stores],
            Demands = [.. code.demands],
            Loads = [.. code.loads],
        };
    }

    private void Pad(int from, int to)
    {
        if (to > from)
            stores.Add(FormattableString.Invariant($"radio_zero(&bytes[{from}], {to - from}u);"));
    }

    private void Add(Field field, int at)
    {
        var (name, macro) = (C.Member(field.Name), $"{upper}_{C.Upper(C.Identifier(field.Name))}");
        switch (field.Kind)
        {
            case FieldKind.Integer or FieldKind.Choice:
                Integer(field, new(name, macro, at, field.ItemSize, field.Count));
                break;
            case FieldKind.Float:
                Float(field, new(name, macro, at, field.ItemSize, field.Count));
                break;
            case FieldKind.Text:
                Text(field, new(name, macro, at, field.ItemSize, field.Count));
                break;
            case FieldKind.Bytes:
                Bytes(field, new(name, macro, at, field.ItemSize, field.Count));
                break;
            case FieldKind.Bits:
                Bits(field, name, at);
                break;
            case FieldKind.CompilerDependent:
            default:
                throw new InvalidOperationException($"the size of {payload.Name}.{field.Name} is not known");
        }
    }

    private void Integer(Field field, FieldSpot spot)
    {
        var bits = field.ItemSize * 8;
        var type = FormattableString.Invariant($"{(field.IsSigned ? "" : "u")}int{bits}_t");
        var unsigned = FormattableString.Invariant($"uint{bits}_t");
        var raw = bits == 8 ? $"bytes[{spot.Place}]" : FormattableString.Invariant($"radio_load_{bits}_{order}(&bytes[{spot.Place}])");
        string Store(string value) => bits == 8
            ? $"bytes[{spot.Place}] = {value};"
            : FormattableString.Invariant($"radio_store_{bits}_{order}(&bytes[{spot.Place}], {value});");

        AddScale(field, spot.Macro);
        if (field.Constant is { } constant)
        {
            var count = Counts.Exactly(constant, field.Scale)!.Value;
            Define(field, $"{spot.Macro}_VALUE", C.Count(field, count), "sent always, and demanded by decode");
            stores.AddRange(spot.ForEach(Store($"({unsigned}){spot.Macro}_VALUE")));
            Demand(spot, $"{raw} != ({unsigned}){spot.Macro}_VALUE");
            return;
        }
        var notes = Unit(field);
        AddChoices(field, spot, notes);
        AddRange(field, spot, notes);
        Member($"{type} {spot.Name}{spot.Suffix};", field, notes);
        if (bits == 8 && !field.IsSigned && field.Count > 1)
        {
            stores.Add(FormattableString.Invariant($"radio_copy(&bytes[{spot.At}], from->{spot.Name}, {field.Count}u);"));
            loads.Add(FormattableString.Invariant($"radio_copy(to->{spot.Name}, &bytes[{spot.At}], {field.Count}u);"));
            return;
        }
        var value = spot.From;
        stores.AddRange(spot.ForEach(Store(field.IsSigned ? $"({unsigned}){value}" : value)));
        loads.AddRange(spot.ForEach($"to->{spot.Name}{spot.Item} = {(field.IsSigned ? FormattableString.Invariant($"radio_signed_{bits}({raw})") : raw)};"));
    }

    private void Float(Field field, FieldSpot spot)
    {
        var raw = $"radio_load_32_{order}(&bytes[{spot.Place}])";
        AddScale(field, spot.Macro);
        if (field.Constant is { } constant)
        {
            Define(field, $"{spot.Macro}_VALUE", C.Float(Counts.Nearest(constant, field.Scale)), "sent always, and demanded by decode");
            stores.AddRange(spot.ForEach($"radio_store_32_{order}(&bytes[{spot.Place}], radio_float_bits({spot.Macro}_VALUE));"));
            Demand(spot, $"{raw} != radio_float_bits({spot.Macro}_VALUE)");
            return;
        }
        var notes = Unit(field);
        if (field.Range is { } range)
        {
            var (low, high) = (C.Float(Counts.Nearest(range.Low, field.Scale)), C.Float(Counts.Nearest(range.High, field.Scale)));
            Define(field, $"{spot.Macro}_LOW", low, field.Unit);
            Define(field, $"{spot.Macro}_HIGH", high, field.Unit);
            // Written so that a number which is none is refused too.
            Check(spot, $"!(({spot.From} >= {spot.Macro}_LOW) && ({spot.From} <= {spot.Macro}_HIGH))");
            notes.Add($"{low.Trim('(', 'f', ')')} to {high.Trim('(', 'f', ')')}");
        }
        Member($"float {spot.Name}{spot.Suffix};", field, notes);
        stores.AddRange(spot.ForEach($"radio_store_32_{order}(&bytes[{spot.Place}], radio_float_bits({spot.From}));"));
        loads.AddRange(spot.ForEach($"to->{spot.Name}{spot.Item} = radio_bits_float({raw});"));
    }

    private void Text(Field field, FieldSpot spot)
    {
        var room = FormattableString.Invariant($"{field.ItemSize}u");
        Member(FormattableString.Invariant($"char {spot.Name}{spot.Suffix}[{field.ItemSize + 1}];"), field,
            [FormattableString.Invariant($"at most {field.ItemSize} byte{(field.ItemSize == 1 ? "" : "s")}, then a zero")]);
        Check(spot, $"radio_text_fits({spot.From}, {room}) == 0u");
        stores.AddRange(spot.ForEach($"radio_store_text(&bytes[{spot.Place}], {spot.From}, {room});"));
        loads.AddRange(spot.ForEach($"radio_load_text(to->{spot.Name}{spot.Item}, &bytes[{spot.Place}], {room});"));
    }

    private void Bytes(Field field, FieldSpot spot)
    {
        var room = FormattableString.Invariant($"{field.ItemSize}u");
        Member(FormattableString.Invariant($"uint8_t {spot.Name}{spot.Suffix}[{field.ItemSize}];"), field, []);
        stores.AddRange(spot.ForEach($"radio_copy(&bytes[{spot.Place}], {spot.From}, {room});"));
        loads.AddRange(spot.ForEach($"radio_copy(to->{spot.Name}{spot.Item}, &bytes[{spot.Place}], {room});"));
    }

    private void Bits(Field field, string name, int at)
    {
        var whole = C.WidthType(field.ItemSize * 8);
        var (pack, unpack) = (new List<string>(), new List<string>());
        members.Add("struct {");
        var shift = 0;
        foreach (var run in field.Bits)
        {
            var (bit, type) = (C.Member(run.Name), C.WidthType(run.Width));
            members.Add(FormattableString.Invariant($"    {type} {bit}; /* {run.Width} bit{(run.Width == 1 ? "" : "s")} */"));
            if (run.Width is not (8 or 16 or 32))
                checks.AddRange(Refuse($"from->{name}.{bit} > {C.Mask(run.Width)}"));
            pack.Add(shift == 0
                ? $"    {whole} packed = from->{name}.{bit};"
                : FormattableString.Invariant($"    packed = ({whole})(packed | ({whole})(({whole})from->{name}.{bit} << {shift}));"));
            unpack.Add($"    to->{name}.{bit} = ({type})({(shift == 0 ? "packed" : FormattableString.Invariant($"({whole})(packed >> {shift})"))} & {C.Mask(run.Width)});");
            shift += run.Width;
        }
        members.Add($"}} {name};");
        var bits = field.ItemSize * 8;
        stores.AddRange(["{", .. pack,
            bits == 8 ? FormattableString.Invariant($"    bytes[{at}] = packed;") : FormattableString.Invariant($"    radio_store_{bits}_{order}(&bytes[{at}], packed);"), "}"]);
        var load = bits == 8 ? FormattableString.Invariant($"bytes[{at}]") : FormattableString.Invariant($"radio_load_{bits}_{order}(&bytes[{at}])");
        loads.AddRange(["{", $"    const {whole} packed = {load};", .. unpack, "}"]);
    }

    private void AddChoices(Field field, FieldSpot spot, List<string> notes)
    {
        if (field.Kind is not FieldKind.Choice)
            return;
        for (var i = 0; i < field.Choices.Length; i++)
            Define(field, $"{spot.Macro}_{C.Upper(C.Identifier(field.Choices[i]))}", C.Unsigned((ulong)i));
        var last = field.Choices.Length - 1;
        if (last < FieldLimits.OfType(field).High)
            Check(spot, $"{spot.From} > {spot.Macro}_{C.Upper(C.Identifier(field.Choices[last]))}");
        notes.Add("one of " + string.Join(", ", field.Choices));
    }

    // The type's own limits need no comparison, and compilers object to one.
    private void AddRange(Field field, FieldSpot spot, List<string> notes)
    {
        if (field.Range is null || FieldLimits.OfRange(field) is not var (low, high))
            return;
        Define(field, $"{spot.Macro}_LOW", C.Count(field, low), "count");
        Define(field, $"{spot.Macro}_HIGH", C.Count(field, high), "count");
        var (below, above) = ($"{spot.From} < {spot.Macro}_LOW", $"{spot.From} > {spot.Macro}_HIGH");
        var limits = FieldLimits.OfType(field);
        if (low > limits.Low || high < limits.High)
            Check(spot, low <= limits.Low ? above : high >= limits.High ? below : $"({below}) || ({above})");
        notes.Add(FormattableString.Invariant($"{low} to {high}"));
    }

    private void AddScale(Field field, string macro)
    {
        if (field.Scale == 1)
            return;
        var (times, over) = Counts.Fraction(field.Scale);
        if (times > long.MaxValue || over > long.MaxValue)
            return;
        Define(field, $"{macro}_TIMES", C.Signed((long)times), $"count * TIMES / OVER = {field.Unit ?? "value"}");
        Define(field, $"{macro}_OVER", C.Signed((long)over));
    }

    private static List<string> Unit(Field field) => field switch
    {
        { Scale: not 1 } => [FormattableString.Invariant($"counts of {field.Scale} {field.Unit}").TrimEnd()],
        { Unit: { } unit } => [unit],
        _ => [],
    };

    private void Define(Field field, string name, string value, string? comment = null) =>
        constants.Add(new(name, value, comment) { Field = field });

    private void Member(string declaration, Field field, List<string> notes)
    {
        if (field.Role is { } role)
            notes.Add(role);
        members.Add(notes.Count == 0 ? declaration : $"{declaration} /* {C.InComment(string.Join(", ", notes))} */");
    }

    private void Check(FieldSpot spot, string refuses) => checks.AddRange(spot.ForEach(Refuse(refuses)));

    private void Demand(FieldSpot spot, string refuses) => demands.AddRange(spot.Count == 1
        ? Refuse($"(fits != 0u) && ({refuses})")
        : ["if (fits != 0u) {", .. spot.ForEach(Refuse(refuses)).Select(line => "    " + line), "}"]);

    private static string[] Refuse(string condition) => [$"if ({condition}) {{", "    fits = 0u;", "}"];
}
