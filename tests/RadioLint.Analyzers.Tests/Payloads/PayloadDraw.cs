using System.Globalization;
using System.Text;

namespace RadioLint.Tests.Analyzers.Payloads;

/// <summary>
/// Random payload definitions as a manifest writes them. Every form comes up often, so that a few hundred payloads fill the coverage table. The
/// same seed draws the same payloads everywhere.
/// </summary>
public sealed class PayloadDraw(int seed)
{
    private static readonly string[] Integers = ["int8", "int16", "int32", "int64", "uint8", "uint16", "uint32", "uint64"];
    private static readonly string[] Scales = ["", " 0.1 degC", " 0.01 degC", " 0.2 mm", " 5 Pa", " 2.5 mV", " 0.125 kg", " g", " 1000 lx"];

    private readonly Random random = new(seed);
    private int serial = seed;

    /// <summary>A payload's value in a manifest, of at most 32 bytes; its size is left to the reader.</summary>
    public string Next(int room)
    {
        var natural = random.Next(6) == 0;
        var big = random.Next(2) == 0;
        var fields = new StringBuilder();
        var left = natural ? room / 2 : room;
        for (var i = 0; left > 0 && i < 10; i++)
        {
            var (text, size) = Field(left);
            fields.Append(i > 0 ? ", " : "").Append(CultureInfo.InvariantCulture, $"f{i}: {text}");
            left -= size;
        }
        return $"{{ fields: {{ {fields} }}, layout: {(natural ? "natural" : "packed")}, byte-order: {(big ? "big" : "little")} }}";
    }

    private (string Text, int Size) Field(int left)
    {
        while (true)
        {
            var (text, size) = random.Next(10) switch
            {
                0 => Choice(),
                1 => Bits(),
                2 => Text("text", left),
                3 => Text("bytes", left),
                4 => Float(),
                _ => Integer(),
            };
            if (size <= left)
                return (text, size);
        }
    }

    private int Count() => random.Next(5) == 0 ? random.Next(2, 5) : 1;

    private static string Several(int count, string text) => count == 1 ? text : $"{count} x {text}";

    private (string Text, int Size) Integer()
    {
        var type = Integers[random.Next(Integers.Length)];
        var (bytes, signed) = (int.Parse(type.TrimStart('u', 'i', 'n', 't'), CultureInfo.InvariantCulture) / 8, type[0] == 'i');
        var scale = Scales[random.Next(Scales.Length)];
        var factor = scale.Trim().Split(' ') is [var number, _] ? decimal.Parse(number, CultureInfo.InvariantCulture) : 1;
        var (count, limit) = (Count(), random.Next(4));
        var (low, high) = (signed ? -random.Next(1, 100) : random.Next(0, 3), random.Next(4, 127));
        var text = type + scale;
        if (limit == 0)
            text += string.Create(CultureInfo.InvariantCulture, $" in {low * factor}..{high * factor}");
        else if (limit == 1 && random.Next(3) == 0)
            text += string.Create(CultureInfo.InvariantCulture, $" = {(signed && random.Next(2) == 0 ? low : high) * factor}");
        return (Several(count, text), bytes * count);
    }

    private (string Text, int Size) Float()
    {
        var (count, form) = (Count(), random.Next(5));
        var text = "float32" + (form == 1 ? " 0.5 V" : form == 2 ? " V in -1.5..3.25" : form == 3 ? " 0.1 V in 0..2" : form == 4 ? " = 1.5" : "");
        return (Several(count, text), 4 * count);
    }

    private (string Text, int Size) Text(string kind, int left)
    {
        var (count, length) = (Count(), random.Next(1, Math.Max(2, Math.Min(13, left + 1))));
        return (Several(count, string.Create(CultureInfo.InvariantCulture, $"{kind} {length}")), length * count);
    }

    private (string Text, int Size) Choice()
    {
        var type = new[] { "uint8", "uint16", "uint32" }[random.Next(3)];
        var names = Enumerable.Range(0, random.Next(1, 6)).Select(i => string.Create(CultureInfo.InvariantCulture, $"c{i}"));
        return ($"{{ {type}: [{string.Join(", ", names)}] }}", int.Parse(type[4..], CultureInfo.InvariantCulture) / 8);
    }

    private (string Text, int Size) Bits()
    {
        var (runs, total) = (new List<string>(), 0);
        while (runs.Count == 0 || (random.Next(4) > 0 && total < 32))
        {
            // Each width in turn first, then mostly small ones.
            var width = Math.Min(runs.Count == 0 ? (serial++ % 32) + 1 : random.Next(3) == 0 ? random.Next(1, 33) : random.Next(1, 6), 32 - total);
            runs.Add(string.Create(CultureInfo.InvariantCulture, $"b{runs.Count}: {width}"));
                total += width;
        }
        var size = (total + 7) / 8;
        return ($"{{ bits: {{ {string.Join(", ", runs)} }} }}", size);
    }
}
