using System.Globalization;
using System.Text.RegularExpressions;

namespace Proof;

/// <summary>A field of a register, by the data sheet's table.</summary>
public sealed record Field(byte Address, string Register, string Name, int High, int Low, string Meaning)
{
    public int Most => (1 << (High - Low + 1)) - 1;

    public bool IsReserved => Name == "Reserved";
}

/// <summary>
/// The register map of one part: nRF24L01+ Product Specification 1.0, Table 28 p57-63, and what the sheets of the other parts say otherwise. Positions and codes
/// are read from the table's rows, none stands in this file.
/// </summary>
public sealed partial class RegisterTable
{
    private const string Base = "nRF24L01+";
    private static readonly Dictionary<string, RegisterTable> Parts = new[] { Base, "nRF24L01", "Si24R1" }.ToDictionary(part => part, part => new RegisterTable(part), StringComparer.Ordinal);

    private static readonly Dictionary<string, byte> Addresses = Facts.Rows("radio-registers.csv").Where(row => row["part"] == Base)
        .GroupBy(row => row["register"]).ToDictionary(rows => rows.Key, rows => Hex(rows.First()["address"]), StringComparer.Ordinal);

    private readonly List<Field> fields;

    private RegisterTable(string part)
    {
        fields = [.. Rows(Base)];
        if (part == Base)
            return;
        foreach (var own in Rows(part))
            fields.RemoveAll(field => field.Address == own.Address && field.Low <= own.High && own.Low <= field.High);
        fields.AddRange(Rows(part));
    }

    public static RegisterTable Of(string part) => Parts[part];

    public IReadOnlyList<Field> Fields => fields;

    public static byte Address(string register) => Addresses[register];

    public bool Has(string register, string field) => fields.Exists(one => one.Register == register && one.Name == field);

    public Field this[string register, string field] => fields.Single(one => one.Register == register && one.Name == field);

    /// <summary>Bits that a program may set.</summary>
    public byte Usable(byte address) => (byte)fields.Where(field => field.Address == address && !field.IsReserved && field.Name != "Obsolete").Sum(field => field.Most << field.Low);

    /// <summary>One byte out of fields; what is not named is 0.</summary>
    public byte Byte(string register, params ReadOnlySpan<(string Field, int Value)> values)
    {
        var bits = 0;
        foreach (var (name, value) in values)
        {
            var field = this[register, name];
            if (value < 0 || value > field.Most)
                throw new InvalidOperationException($"{register}.{name} has no room for {value}");
            bits |= value << field.Low;
        }
        return (byte)bits;
    }

    /// <summary>The code that the table gives a meaning, such as 10 for `4 bytes`.</summary>
    public int Code(string register, string field, string meaning)
    {
        var text = this[register, field].Meaning;
        if (text.StartsWith("Same coding", StringComparison.Ordinal))
            text = Of(Base)[register, field].Meaning;
        foreach (Match match in CodeText().Matches(text))
        {
            if (Bare(match.Groups[2].Value) == Bare(meaning))
                return Convert.ToInt32(match.Groups[1].Value, 2);
        }
        throw new InvalidOperationException($"{register}.{field} has no code for {meaning}");
    }

    /// <summary>The meanings that the table lists for a field, by code.</summary>
    public IEnumerable<string> Meanings(string register, string field)
    {
        var text = this[register, field].Meaning;
        if (text.StartsWith("Same coding", StringComparison.Ordinal))
            text = Of(Base)[register, field].Meaning;
        return CodeText().Matches(text).OrderBy(match => match.Groups[1].Value, StringComparer.Ordinal).Select(match => Bare(match.Groups[2].Value));
    }

    private static byte Hex(string text) => byte.Parse(text.AsSpan(2), NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    private static string Bare(string meaning) => meaning.Replace("dBm", "", StringComparison.Ordinal).Trim();

    private static IEnumerable<Field> Rows(string part) =>
        Facts.Rows("radio-registers.csv").Where(row => row["part"] == part && row["msb"].Length > 0 && (row["field"].Length > 0 || row["msb"] == "39"))
            .Select(row => new Field(
                Hex(row["address"]), row["register"], row["field"],
                int.Parse(row["msb"], CultureInfo.InvariantCulture), int.Parse(row["lsb"], CultureInfo.InvariantCulture), row["meaning"]));

    [GeneratedRegex("(?<![0-9A-Za-z])([01]+) = (-?[0-9]+(?: [A-Za-z]+)?)")]
    private static partial Regex CodeText();
}

/// <summary>Command words (nRF24L01+ Product Specification 1.0, Table 20 p51).</summary>
public static class Words
{
    private static readonly Dictionary<string, byte> All = Facts.Rows("radio-commands.csv").Where(row => row["word_hex"].StartsWith("0x", StringComparison.Ordinal))
        .GroupBy(row => row["command"]).ToDictionary(
            rows => rows.Key, rows => byte.Parse(rows.First()["word_hex"].AsSpan(2, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture), StringComparer.Ordinal);

    public static byte Write(byte register) => (byte)(Word("W_REGISTER") | register);

    public static byte Word(string command) => All[command];
}
