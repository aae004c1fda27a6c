using RadioLint.Hardware;
using RadioLint.Hardware.Keys;
using RadioLint.Manifest;
using RadioLint.Spectrum;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>The shipped files hold together, and a faulty one says where.</summary>
public sealed class DataFileTests
{
    private const string Sources = "sources:\n  S1: { title: A sheet, revision: v2, read: all }\n";

    public static TheoryData<string> Files() =>
    [
        .. DataFile.NamesIn("Hardware/radios/").Select(name => $"Hardware/radios/{name}.yaml"),
        "Hardware/front-ends.yaml", "Hardware/modules.yaml", "Hardware/regulators.yaml", "Hardware/cells.yaml",
        "Spectrum/bands.yaml", "Spectrum/countries.yaml", "Spectrum/neighbours.yaml",
    ];

    // Figures without a source, sources that nothing cites, and keys that the reader would pass over are faults of the file.
    [Theory, MemberData(nameof(Files))]
    public void Every_figure_names_a_listed_document_and_every_document_is_named(string file)
    {
        var tree = DataFile.Load(file);
        var listed = ((LocatedMap)tree.Find("sources")!.Value.Value).Entries.Select(entry => entry.Key.Text).ToHashSet(StringComparer.Ordinal);
        var named = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in tree.Entries.Where(entry => entry.Key.Text != "sources"))
            Walk(entry.Value, named);
        if (tree.Find("source") is { } whole)
            named.Add(((LocatedScalar)whole.Value).Text);
        Assert.Equal(listed.Order(StringComparer.Ordinal), named.Order(StringComparer.Ordinal));
    }

    private static void Walk(LocatedValue value, HashSet<string> named)
    {
        if (value is LocatedMap map)
        {
            if (map.Find("is") is not null || map.Find("source") is not null)
            {
                named.Add(Assert.IsType<LocatedScalar>(map.Find("source")?.Value).Text);
                Assert.Contains(Assert.IsType<LocatedScalar>(map.Find("basis")?.Value).Text, new[] { "read", "secondary", "derived", "memory", "assumed" });
            }
            Assert.All(map.Entries, entry => Assert.False(entry.Key.Text.StartsWith("x-", StringComparison.Ordinal), $"{entry.Key.Place}"));
            foreach (var entry in map.Entries)
                Walk(entry.Value, named);
        }
        foreach (var item in value is LocatedList list ? list.Items : [])
            Walk(item, named);
    }

    [Fact]
    public void Every_part_reads()
    {
        Assert.All(RadioParts.Names, name => Assert.Equal(name, RadioParts.Find(name)?.Name));
        Assert.Equal(3, RadioParts.Names.Length);
        Assert.All(FrontEnds.Names, name => Assert.Equal(name, FrontEnds.Find(name)?.Name));
        Assert.All(ModuleKinds.Names, name => Assert.Equal(name, ModuleKinds.Find(name)?.Name));
        Assert.All(Regulators.Names, name => Assert.Equal(name, Regulators.Find(name)?.Name));
        Assert.All(CellKinds.Names, name => Assert.Equal(name, CellKinds.Find(name)?.Name));
    }

    [Fact]
    public void A_part_is_read_once_whoever_asks()
    {
        var found = new RadioPart?[64];
        Parallel.For(0, found.Length, i => found[i] = RadioParts.Find("Si24R1"));
        Assert.All(found, part => Assert.Same(found[0], part));
    }

    [Fact]
    public void Documents_are_quoted_by_title()
    {
        Assert.Equal("nRF24L01+ Product Specification, v1.0, Table 11 p19; note a", RadioParts.Find("nRF24L01+")!.CrystalTolerance.Citation);
        Assert.Equal("47 CFR Part 15, 2024-09-30, 15.249 (a), (c), (e); 15.35", Bands.For("US").Citation);
        Assert.Equal("value from memory", Bands.For("CA").Citation);
    }

    [Theory]
    [InlineData("output: { is: 3.3 V, source: S1, basis: read }\n    limits: 5", "test.yaml:6:5: a regulator has no key `limits`")]
    [InlineData("output: { is: 3.3 V, source: S1, basis: read, nots: x }", "test.yaml:5:51: a figure with its source has no key `nots`")]
    [InlineData("output: { is: 3.3 mA, source: S1, basis: read }", "test.yaml:5:19: `3.3 mA` is a current; a voltage such as `3.3 V` is expected")]
    [InlineData("output: { is: 3.3 V, source: S2, basis: read }", "test.yaml:5:34: `S2` stands where the name of a document listed under `sources` is expected")]
    [InlineData("output: { is: 3.3 V, source: S1, basis: read }", "test.yaml:5:5: a regulator lacks the key `text`")]
    [InlineData("output: {", "test.yaml:5:14: a plain value of one line is expected here")]
    public void A_faulty_file_says_where(string entry, string message)
    {
        var text = $"{Sources}regulators:\n  X1:\n    {entry}\n";
        var fault = Assert.Throws<InvalidOperationException>(() => DataFile.Read(DataTree.Read(new("test.yaml", text)), RegulatorKeys.File));
        Assert.StartsWith(message, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_without_documents_or_keys_is_faulty()
    {
        Assert.Throws<InvalidOperationException>(() => DataFile.Read(DataTree.Read(new("test.yaml", "regulators: {}\n")), RegulatorKeys.File));
        Assert.Throws<InvalidOperationException>(() => DataFile.Load("Hardware/none.yaml"));
    }
}
