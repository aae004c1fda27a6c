using System.Collections.Immutable;
using System.Text;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>Lines and columns count from 1, columns in UTF-16 units, whatever ends the lines.</summary>
public sealed class PositionTests
{
    private const string Node = "nodes: { hall: { board: esp32 } }";

    [Theory, InlineData("\n"), InlineData("\r\n"), InlineData("\r")]
    public void Line_ends_of_every_kind_count_once(string end)
    {
        var text = string.Join(end, "radiolint: 1", "# note", "network: cellar", "", "regoin: GB", "air: { chanel: 74 }", Node, "");
        Assert.Equal(["5:1 regoin", "6:8 chanel"], Places(text, "RL8003"));
    }

    [Fact]
    public void Line_ends_may_be_mixed() =>
        Assert.Equal(["5:1 regoin"], Places($"radiolint: 1\r\nnetwork: cellar\r# note\n\nregoin: GB\r\n{Node}", "RL8003"));

    [Fact]
    public void A_tab_is_one_column() =>
        Assert.Equal(["3:24 chanel"], Places($"radiolint: 1\nnetwork: cellar\nair:\t{{\t\t rate:\t2 Mbps,\tchanel: 74 }}\n{Node}\n", "RL8003"));

    [Fact]
    public void Characters_outside_the_basic_plane_are_two_columns() => Assert.Equal(
        ["3:40 7"],
        Places("radiolint: 1\nnetwork: cellar\nnodes: { hall: { place: \"\U0001F41Dé\", height: 7, board: esp32 } }\n", "RL8013"));

    // NEL and the separators end lines for some readers and not for others; half a pair and a mark in the middle are never meant.
    [Theory]
    [InlineData('\u0000'), InlineData('\u0007'), InlineData('\u007f'), InlineData('\u0085'), InlineData('\u009b'), InlineData('\u2028'), InlineData('\u2029')]
    [InlineData('\ud83d'), InlineData('\udc1d'), InlineData('\ufeff'), InlineData('\ufffe'), InlineData('\uffff')]
    public void A_control_character_is_refused_at_its_place(char control)
    {
        var finding = Assert.Single(Check($"radiolint: 1\nx-note: \"é\U0001F41D{control}b\"\n{Node}\n"));
        Assert.Equal((FormattableString.Invariant($"the control character U+{(int)control:X4} stands here"), new LinePosition(2, 13)), (finding.Message, finding.Place.From));
    }

    [Theory, InlineData("\u00a0"), InlineData("\u00e9"), InlineData("\ue000"), InlineData("\ufffd"), InlineData("\U0001F41D"), InlineData("\U0010FFFF")]
    public void Other_characters_are_not(string text) =>
        Assert.DoesNotContain(Check($"radiolint: 1\nx-note: \"{text}\"\n{Node}\n"), finding => finding.Rule.Id == "RL8001");

    [Fact]
    public void A_byte_order_mark_is_no_column()
    {
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes($"regoin: GB\nradiolint: 1\nnetwork: cellar\n{Node}\n")];
        var finding = Assert.Single(Linter.Check("a.radio.yaml", bytes).Findings, finding => finding.Rule.Id == "RL8003");
        Assert.Equal(new(1, 1), finding.Place.From);
        Assert.Equal(new(1, 7), finding.Place.To);
    }

    [Theory]
    [InlineData("region: \"G\\u0043\"", 9, 9)]
    [InlineData("region: 'GB '", 9, 5)]
    public void A_quoted_value_is_underlined_with_its_quotes(string line, int column, int length)
    {
        var place = Check($"radiolint: 1\nnetwork: cellar\n{line}\n{Node}\n").Single(finding => finding.Rule.Id == "RL8005").Place;
        Assert.Equal((3, column, length), (place.From.Line, place.From.Column, place.Length));
    }

    [Fact]
    public void A_block_map_ends_with_its_last_value()
    {
        var text = $"radiolint: 1\nnetwork: cellar\nair: [\n  74,\n  75 ]\n\n# far below\n{Node}\n";
        var place = Check(text).Single(finding => finding.Rule.Id == "RL8004").Place;
        Assert.Equal(new(3, 6), place.From);
        Assert.Equal(new(5, 7), place.To);
    }

    [Fact]
    public void The_line_table_agrees_with_a_walk_through_the_text()
    {
        const string text = "a\r\n\rb\n\n\U0001F41Dc\r";
        var source = new SourceText("a", text);
        var (line, column) = (1, 1);
        for (var i = 0; i <= text.Length; i++)
        {
            Assert.Equal(new(line, column), source.PositionOf(i));
            var ends = i < text.Length && (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')));
            (line, column) = ends ? (line + 1, 1) : (line, column + 1);
        }
        Assert.Equal(line, source.LineCount);
        Assert.Equal(["a", "", "b", "", "\U0001F41Dc", ""], Enumerable.Range(1, line).Select(source.Line));
    }

    private static ImmutableArray<Finding> Check(string text) => Linter.Check(new SourceText("a.radio.yaml", text)).Findings;

    private static IEnumerable<string> Places(string text, string id) => Check(text)
        .Where(finding => finding.Rule.Id == id)
        .Select(finding => FormattableString.Invariant($"{finding.Place.From.Line}:{finding.Place.From.Column} {finding.Place.Text}"));
}
