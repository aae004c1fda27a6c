using System.Globalization;
using System.Text;
using RadioLint.Binding;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Manifest;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>The quick reader of data files agrees with a general YAML parser, and refuses what it does not know.</summary>
public sealed class DataTreeTests
{
    public static TheoryData<string> Files() =>
    [
        .. typeof(DataFile).Assembly.GetManifestResourceNames().Where(name => name.EndsWith(".yaml", StringComparison.Ordinal)),
    ];

    [Fact]
    public void All_data_files_are_compared() =>
        Assert.True(Files().Count >= ShippedBoards.Names.Length + RadioParts.Names.Length + 8, $"only {Files().Count} files");

    // Checked against YamlDotNet's event parser, which makes the other tree.
    [Theory, MemberData(nameof(Files))]
    public void A_shipped_file_is_the_tree_that_the_general_parser_makes(string file)
    {
        var source = DataFile.Source(file);
        var findings = new List<Finding>();
        var general = TreeReader.Read(source, findings);
        Assert.False(FileText.Refused(source, findings));
        Assert.Empty(findings);
        Assert.Equal(Lines(general!), Lines(DataTree.Read(source)));
    }

    [Theory]
    [InlineData("", "1:1")]
    [InlineData("- one\n", "1:6")]
    [InlineData("a: 1\n  b: 2\n", "2:3")]
    [InlineData("a:\n", "2:1")]
    [InlineData("a:\nb: 1\n", "2:1")]
    [InlineData("a: 1\na: 2\n", "2:5")]
    [InlineData("a: &x 1\n", "1:8")]
    [InlineData("a: >\n  text\n", "1:5")]
    [InlineData("a: \"one\n  two\"\n", "1:8")]
    [InlineData("a: \"\\t\"\n", "1:5")]
    [InlineData("a: 'it''s'\n", "1:8")]
    [InlineData("a: [1, 2\n]\n", "1:9")]
    [InlineData("a: { b }\n", "1:8")]
    [InlineData("a: [,]\n", "1:5")]
    [InlineData("a: 1\n...\n", "2:4")]
    public void What_data_files_do_not_use_is_refused_with_its_place(string text, string place)
    {
        var fault = Assert.Throws<InvalidOperationException>(() => DataTree.Read(new("test.yaml", text)));
        Assert.StartsWith($"test.yaml:{place}: ", fault.Message, StringComparison.Ordinal);
    }

    private static string Lines(LocatedValue value)
    {
        var lines = new StringBuilder();
        Write(value, lines);
        return lines.ToString();
    }

    private static void Write(LocatedValue value, StringBuilder lines)
    {
        lines.Append(CultureInfo.InvariantCulture, $"{value.Place}+{value.Place.Length} {value.Kind} {value.Size} {value.Depth} {(value as LocatedScalar)?.IsQuoted} {(value as LocatedScalar)?.Text}\n");
        foreach (var (key, inside) in value is LocatedMap map ? map.Entries : [])
        {
            Write(key, lines);
            Write(inside, lines);
        }
        foreach (var item in value is LocatedList list ? list.Items : [])
            Write(item, lines);
    }
}
