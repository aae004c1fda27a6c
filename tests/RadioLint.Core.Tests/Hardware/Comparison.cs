using RadioLint.Hardware;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>A figure of ours, in the unit of the published one, with what we say of its source.</summary>
internal sealed record Ours(decimal Value, string Source, string Basis)
{
    public static Ours Of(Fact<Voltage> fact) => new(Volts(fact.Value), fact.Source, fact.Basis);
    public static Ours Of<T>(Fact<T> fact, Func<T, decimal> value) => new(value(fact.Value), fact.Source, fact.Basis);
    public static Ours Of(decimal value, Origin origin) => new(value, origin.Source, origin.Basis);

    public static decimal Volts(Voltage voltage) => voltage.Millivolts / 1_000m;

    /// <summary>In the unit of a published figure.</summary>
    public static Ours Of(Fact<Current> fact, string unit) => Of(fact, current => In(current, unit));

    public static decimal In(Current current, string unit) => current.Nanoamperes / unit switch { "mA" => 1_000_000m, "uA" => 1_000m, "nA" => 1m, _ => throw new ArgumentOutOfRangeException(unit) };

    public static Ours Of(Fact<Duration> fact, string unit) => Of(fact, time => In(time, unit));

    public static decimal In(Duration time, string unit) => time.Nanoseconds / unit switch { "ms" => 1_000_000m, "us" => 1_000m, "ns" => 1m, _ => throw new ArgumentOutOfRangeException(unit) };

    public static Ours Of(Fact<PowerLevel> fact) => Of(fact, level => level.Centi / 100m);

    public static Ours Of(Fact<Gain> fact) => Of(fact, gain => gain.Centi / 100m);

    public static decimal Megahertz(Frequency frequency) => frequency.Hertz / 1_000_000m;
}

/// <summary>Compares rows of published figures with ours.</summary>
internal static class Comparison
{
    private static readonly Dictionary<string, string> Titles =
        Published.Rows("radio-sources.csv").ToDictionary(row => row["code"], row => row["document"], StringComparer.Ordinal);

    /// <summary>
    /// Compares the rows that <paramref name="find"/> knows a property for; returns how many those are, and by name what the others say.
    /// </summary>
    public static (int Exercised, string Skipped) Run(
        string file, string name, string part, Func<PublishedRow, IEnumerable<(Ours Ours, decimal Published)>> find)
    {
        var rows = Published.Rows(file).Where(row => row["part"] == part).ToList();
        var exercised = 0;
        var skipped = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var row in rows)
        {
            var pairs = find(row).ToList();
            foreach (var (ours, published) in pairs)
            {
                Assert.True(ours.Value == published, $"{ours.Value} is not {published}, published: {row}");
                IsCitedAlike(ours, row);
            }
            if (pairs.Count > 0)
                exercised++;
            else
                skipped.Add(row[name]);
        }
        return (exercised, string.Join(' ', skipped));
    }

    // What we claim to have read must name a document that the row names; what nobody read must not be claimed.
    private static void IsCitedAlike(Ours ours, PublishedRow row)
    {
        Assert.Contains(ours.Basis, new[] { "read", "derived", "memory" });
        Assert.Equal(row["status"] == "from memory", ours.Basis == "memory");
        var documents = row.Split("source").Select(source => source.Split(' ')[0]).Where(Titles.ContainsKey).Select(code => Titles[code]);
        if (ours.Basis == "read")
            Assert.Contains(documents, title => ours.Source.StartsWith(title, StringComparison.Ordinal));
    }
}
