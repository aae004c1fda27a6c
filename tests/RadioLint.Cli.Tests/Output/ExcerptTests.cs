using System.Text;
using CsCheck;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Cli.Tests.Output;

public sealed class ExcerptTests
{
    private const int Columns = 40;

    private static readonly Gen<string>[] Pieces = [.. new[] { "a", "bc ", "巣", "é", "e\u0301", "\t", "🐝", "\n" }.Select(piece => Gen.Const(piece))];

    [Theory]
    [InlineData("air:\n  [channel]: 1\n", "  channel: 1", "  ^~~~~~~")]
    [InlineData("a: [7]\r\nb: 1\r\n", "a: 7", "   ^")]
    [InlineData("a: []7", "a: 7", "   ^")]
    [InlineData("a: b[]", "a: b", "    ^")]
    [InlineData("a: [b\n  c: d]", "a: b", "   ^")]
    [InlineData("{\t\"a\":\t[1] }", "{   \"a\":    1 }", "            ^")]
    [InlineData("place: 巣箱 [bad]", "place: 巣箱 bad", "            ^~~")]
    [InlineData("place: [巣箱] bad", "place: 巣箱 bad", "       ^~~~")]
    [InlineData("a: cafe\u0301 [x]", "a: cafe\u0301 x", "        ^")]
    [InlineData("a: [🐝] x", "a: 🐝 x", "   ^~")]
    [InlineData("a: \u001b[31m[x]", "a: \uFFFD[31mx", "        ^")]
    [InlineData("a: \u202e[x]", "a: \uFFFDx", "    ^")]
    public void Shows_the_line_and_marks_the_span(string text, string line, string mark) =>
        Assert.Equal((line, mark), Excerpt.Of(Bracketed(text), Columns));

    [Theory]
    [InlineData("a: [bcd], 56789 123456789 123456789 123456789", "a: bcd, 56789 123456789 1234567891234...", "   ^~~")]
    [InlineData("0123456789012345678901234567890123456789 12[345] 6789 123456789 1234567", "...8901234567890123456789 12345 6789 1...", "                            ^~~")]
    [InlineData("0123456789012345678901234567890123456789 123456789 [end]", "...2345678901234567890123456789 123456789 end", "")]
    public void Cuts_a_long_line_round_the_span(string text, string line, string mark)
    {
        var found = Excerpt.Of(Bracketed(text), Columns);
        Assert.NotNull(found);
        Assert.True(found.Value.Line.Length <= Columns, found.Value.Line);
        Assert.Equal(line.StartsWith("...", StringComparison.Ordinal), found.Value.Line.StartsWith("...", StringComparison.Ordinal));
        Assert.Equal(line.EndsWith("...", StringComparison.Ordinal), found.Value.Line.EndsWith("...", StringComparison.Ordinal));
        var from = found.Value.Mark.IndexOf('^', StringComparison.Ordinal);
        Assert.Equal(text[(text.IndexOf('[', StringComparison.Ordinal) + 1)..text.IndexOf(']', StringComparison.Ordinal)], found.Value.Line[from..found.Value.Mark.Length]);
        Assert.True(mark.Length == 0 || mark.Trim() == found.Value.Mark.Trim());
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("a: 1\n[]")]
    [InlineData("   []\n")]
    public void Shows_nothing_where_there_is_nothing(string text) => Assert.Null(Excerpt.Of(Bracketed(text), Columns));

    [Fact]
    public void A_file_of_one_line_is_not_gone_through()
    {
        var text = "{ " + string.Concat(Enumerable.Repeat("\"a\": 1, ", 200_000)) + "}";
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.NotNull(Excerpt.Of(new(new("a.radio.json", text), 0, 1), Columns));
        var once = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.True(once < 200_000, $"{once} bytes for one excerpt");
    }

    [Fact]
    public void The_mark_is_under_the_span_and_inside_the_page_whatever_the_text() =>
        Gen.Select(Gen.OneOf(Pieces).List[0, 200], Gen.Int[0, 400], Gen.Int[0, 60]).Sample((parts, start, length) =>
        {
            var text = string.Concat(parts);
            var from = Math.Min(start, text.Length);
            var place = new Place(new("x", text), from, Math.Min(length, text.Length - from));
            if (Excerpt.Of(place, Columns) is not var (line, mark))
                return;
            Assert.True(Printable.Width(line) <= Columns, line);
            Assert.True(mark.Length <= Columns, mark);
            var column = mark.IndexOf('^', StringComparison.Ordinal);
            if (place.Length > 0 && !char.IsLowSurrogate(text[from]) && text[from] is >= 'a' and <= 'c')
                Assert.True(text[from] == After(line, column), $"{line}|\n{mark}|\n{text.Replace("\n", "\\n", StringComparison.Ordinal)} {from}");
        }, iter: 2000);

    // The character that begins in a column.
    private static char After(string line, int column)
    {
        var x = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (x >= column && Printable.Width(rune) > 0)
                return rune.ToString()[0];
            x += Printable.Width(rune);
        }
        return '\0';
    }

    // The first [ and the last ] are the span's ends and no part of the text.
    private static Place Bracketed(string text)
    {
        var start = text.IndexOf("[31m", StringComparison.Ordinal) is var escape and >= 0
            ? text.IndexOf('[', escape + 1)
            : text.IndexOf('[', StringComparison.Ordinal);
        var plain = new StringBuilder(text).Remove(start, 1).ToString();
        var end = plain.IndexOf(']', start);
        return new(new("file", plain.Remove(end, 1)), start, end - start);
    }
}
