using System.Globalization;
using System.Numerics;
using System.Text;
using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Tests.Analyzers.Payloads;

/// <summary>
/// Values of a payload as words, one a number: integers, choices and bits in decimal, floats as the hex of their bits, text and bytes as hex (`-`
/// for none). The order is that of the fields, items one after the other.
/// </summary>
public sealed class ValueDraw(int seed, Coverage coverage)
{
    private static readonly (string Name, float Value)[] Floats =
    [
        ("0", 0f), ("-0", -0f), ("1", 1f), ("-1", -1f), ("least", float.MinValue), ("greatest", float.MaxValue), ("smallest", float.Epsilon),
        ("infinity", float.PositiveInfinity), ("not a number", float.NaN),
    ];

    private static readonly string[] Letters = ["a", "Z", "7", " ", "\u00E9", "\u6F22", "\U0001F41D"];

    private readonly Random random = new(seed);

    /// <summary>Values that fit, but for one where <paramref name="spoilt"/>.</summary>
    public List<string> Next(Payload payload, bool spoilt)
    {
        var fields = payload.Fields.Where(field => field.Constant is null).ToList();
        var bad = spoilt && fields.Count > 0 ? random.Next(fields.Count) : -1;
        return [.. fields.SelectMany((field, i) => Of(field, i == bad))];
    }

    public byte[] Bytes(int length)
    {
        var bytes = new byte[length];
        random.NextBytes(bytes);
        return bytes;
    }

    private List<string> Of(Field field, bool spoilt)
    {
        if (field.Kind is FieldKind.Bits)
            return BitsOf(field, spoilt);
        var bad = spoilt ? random.Next(field.Count) : -1;
        return [.. Enumerable.Range(0, field.Count).Select(i => One(field, i == bad))];
    }

    private string One(Field field, bool spoilt) => field.Kind switch
    {
        FieldKind.Integer => Integer(field, spoilt).ToString(CultureInfo.InvariantCulture),
        FieldKind.Choice => Choice(field, spoilt).ToString(CultureInfo.InvariantCulture),
        FieldKind.Float => Float(field, spoilt),
        FieldKind.Text => Text(field.ItemSize, spoilt),
        _ => Convert.ToHexString(Bytes(field.ItemSize)),
    };

    private BigInteger Integer(Field field, bool spoilt)
    {
        var (least, greatest) = FieldLimits.OfType(field);
        var (low, high) = FieldLimits.OfRange(field) ?? (least, greatest);
        if (spoilt && low > least && (random.Next(2) == 0 || high == greatest))
        {
            coverage.Add("refused", "below");
            return random.Next(2) == 0 ? low - 1 : least;
        }
        if (spoilt && high < greatest)
        {
            coverage.Add("refused", "above");
            return random.Next(2) == 0 ? high + 1 : greatest;
        }
        var value = random.Next(8) switch
        {
            0 => low,
            1 => high,
            2 => BigInteger.Max(low, BigInteger.Min(high, BigInteger.Zero)),
            3 => BigInteger.Max(low, BigInteger.Min(high, BigInteger.MinusOne)),
            4 => BigInteger.Max(low, BigInteger.Min(high, (greatest + 1) / 2)),
            _ => low + (new BigInteger(Bytes(9), isUnsigned: true) % (high - low + 1)),
        };
        Edge(field, value, least, greatest);
        return value;
    }

    private void Edge(Field field, BigInteger value, BigInteger least, BigInteger greatest)
    {
        var edge = value == greatest ? "greatest" : value.IsZero ? "0" : field.IsSigned && value == least ? "least" : field.IsSigned && value == -1 ? "-1"
            : !field.IsSigned && value == (greatest + 1) / 2 ? "half" : null;
        if (edge is not null)
            coverage.Add("sign edge", $"{field.TypeName} {edge}");
    }

    private BigInteger Choice(Field field, bool spoilt)
    {
        if (!spoilt)
            return random.Next(field.Choices.Length);
        coverage.Add("refused", "choice");
        return random.Next(2) == 0 ? field.Choices.Length : FieldLimits.OfType(field).High;
    }

    private List<string> BitsOf(Field field, bool spoilt)
    {
        // A run of 1, 8, 16 or 32 bits fills its type in C#, so nothing can be too large.
        var roomy = field.Bits.Select((run, i) => (run, i)).Where(one => one.run.Width is not (1 or 8 or 16 or 32)).Select(one => one.i).ToList();
        var bad = spoilt && roomy.Count > 0 ? roomy[random.Next(roomy.Count)] : -1;
        var words = new List<string>();
        for (var i = 0; i < field.Bits.Length; i++)
        {
            var most = (1UL << field.Bits[i].Width) - 1;
            var value = random.Next(3) switch { 0 => most, 1 => 0UL, _ => (ulong)random.NextInt64((long)most + 1) };
            if (i == bad)
            {
                coverage.Add("refused", "bits");
                value = most + 1;
            }
            words.Add(value.ToString(CultureInfo.InvariantCulture));
        }
        return words;
    }

    private string Float(Field field, bool spoilt)
    {
        if (field.Range is var (low, high))
        {
            var (least, most) = (Counts.Nearest(low, field.Scale), Counts.Nearest(high, field.Scale));
            if (!spoilt)
                return Word(random.Next(3) switch { 0 => least, 1 => most, _ => least + ((most - least) * random.NextSingle()) });
            var form = random.Next(3);
            coverage.Add("refused", form == 0 ? "below" : form == 1 ? "above" : "not a number");
            return Word(form == 0 ? MathF.BitDecrement(least) : form == 1 ? MathF.BitIncrement(most) : float.NaN);
        }
        if (random.Next(2) == 0)
            return random.Next(int.MinValue, int.MaxValue).ToString("X8", CultureInfo.InvariantCulture);
        var (name, value) = Floats[random.Next(Floats.Length)];
        coverage.Add("float", name);
        return Word(value);
    }

    private static string Word(float value) => BitConverter.SingleToUInt32Bits(value).ToString("X8", CultureInfo.InvariantCulture);

    private string Text(int room, bool spoilt)
    {
        if (spoilt)
        {
            coverage.Add("refused", "text");
            return Convert.ToHexString(Encoding.UTF8.GetBytes(new string('x', room + 1)));
        }
        var (text, wanted) = ("", random.Next(4) switch { 0 => 0, 1 => room, _ => random.Next(room + 1) });
        while (text.Length < 40)
        {
            var letter = wanted == room && random.Next(2) == 0 ? "x" : Letters[random.Next(Letters.Length)];
            if (Encoding.UTF8.GetByteCount(text + letter) > wanted)
                break;
            text += letter;
        }
        var bytes = Encoding.UTF8.GetBytes(text);
        if (bytes.Length == 0)
            coverage.Add("text", "empty");
        if (bytes.Length == room)
            coverage.Add("text", "full");
        if (bytes.Length > text.Length)
            coverage.Add("text", "beyond ASCII");
        return bytes.Length == 0 ? "-" : Convert.ToHexString(bytes);
    }
}
