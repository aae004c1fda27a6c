using System.Globalization;
using System.Text;
using RadioLint.Model;

namespace RadioLint.Tests.Analyzers.Payloads;

/// <summary>What has come up, how often, and what must come up at least once.</summary>
public sealed class Coverage
{
    private readonly SortedDictionary<(string Group, string Cell), int> cells = [];

    public Coverage()
    {
        foreach (var type in new[] { "int8", "int16", "int32", "int64", "uint8", "uint16", "uint32", "uint64" })
        {
            Want("type", type, type + " constant", type + " in a range");
            if (type[0] == 'i')
                Want("sign edge", type + " least", type + " -1", type + " 0", type + " greatest");
            else
                Want("sign edge", type + " 0", type + " half", type + " greatest");
        }
        Want("type", "float32", "float32 constant", "float32 in a range", "float32 scaled", "text", "bytes", "bits", "choice uint8", "choice uint16", "choice uint32");
        Want("several", [.. new[] { "Integer", "Float", "Text", "Bytes" }.SelectMany(kind => new[] { "one " + kind, "several " + kind })]);
        Want("scale", "none", "0.1 degC", "0.01 degC", "0.2 mm", "5 Pa", "2.5 mV", "0.125 kg", "g", "1000 lx");
        Want("layout", "packed", "natural");
        Want("byte order", "little", "big");
        Want("bytes of bits", "1", "2", "3", "4");
        Want("float", "0", "-0", "1", "-1", "least", "greatest", "smallest", "infinity", "not a number");
        Want("text", "empty", "full", "beyond ASCII");
        Want("refused", "below", "above", "choice", "bits", "text", "not a number", "length on air", "constant on air");
        for (var width = 1; width <= 32; width++)
            Want("bit width", width.ToString("D2", CultureInfo.InvariantCulture));
        for (var length = 1; length <= 32; length++)
            Want("length", length.ToString("D2", CultureInfo.InvariantCulture));
    }

    public IEnumerable<string> Empty => cells.Where(cell => cell.Value == 0).Select(cell => $"{cell.Key.Group}: {cell.Key.Cell}");

    public void Add(string group, string cell)
    {
        if (!cells.TryGetValue((group, cell), out var count))
            throw new InvalidOperationException($"{group}: {cell} is not expected");
        cells[(group, cell)] = count + 1;
    }

    /// <summary>What a payload is made of.</summary>
    public void Add(Payload payload, int length)
    {
        Add("length", length.ToString("D2", CultureInfo.InvariantCulture));
        Add("layout", payload.IsNatural ? "natural" : "packed");
        Add("byte order", payload.IsBigEndian ? "big" : "little");
        foreach (var field in payload.Fields)
        {
            Add("type", TypeOf(field));
            if (field.Kind is FieldKind.Integer)
                Add("scale", ScaleOf(field));
            if (field.Kind is not (FieldKind.Choice or FieldKind.Bits))
                Add("several", $"{(field.Count > 1 ? "several" : "one")} {field.Kind}");
            if (field.Kind is FieldKind.Bits)
                Add("bytes of bits", field.ItemSize.ToString(CultureInfo.InvariantCulture));
            foreach (var run in field.Bits)
                Add("bit width", run.Width.ToString("D2", CultureInfo.InvariantCulture));
        }
    }

    private static string TypeOf(Field field) => field switch
    {
        { Kind: FieldKind.Text } => "text",
        { Kind: FieldKind.Bytes } => "bytes",
        { Kind: FieldKind.Bits } => "bits",
        { Kind: FieldKind.Choice } => "choice " + field.TypeName,
        { Constant: not null } => field.TypeName + " constant",
        { Range: not null } => field.TypeName + " in a range",
        { Kind: FieldKind.Float, Scale: not 1 } => field.TypeName + " scaled",
        _ => field.TypeName,
    };

    private static string ScaleOf(Field field) => field.Scale != 1 ? string.Create(CultureInfo.InvariantCulture, $"{field.Scale} {field.Unit}") : field.Unit ?? "none";

    public override string ToString()
    {
        var text = new StringBuilder();
        foreach (var group in cells.GroupBy(cell => cell.Key.Group))
            text.Append(CultureInfo.InvariantCulture, $"{group.Key}: {string.Join(", ", group.Select(cell => $"{cell.Key.Cell} {cell.Value}"))}\n");
        return text.ToString();
    }

    private void Want(string group, params string[] names)
    {
        foreach (var name in names)
            cells.TryAdd((group, name), 0);
    }
}
