using System.Text;
using CsCheck;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>Whatever the bytes are: no exception, and every place lies inside the file.</summary>
public sealed class RobustnessTests
{
    private static readonly string[] Pieces =
    [
        "radiolint: 1\n", "network: a\n", "nodes:\n", "  hall:\n", "    board: esp32\n", "links:\n", "  - from: hall\n", "payloads:\n", "air:", "pins:", " {", " }", "[", "]", ",",
        ": ", ":", "- ", "? ", "\n", "\r", "\r\n", "  ", "\t", "\"", "'", "\\", "|\n", ">-\n", "&a ", "*a", "<<", "!!str ", "!", "%YAML 1.2\n", "---\n", "...\n", "# note\n", "~", "null",
        "true", "no", "3.3 V", "1..3", "0x4A", "010", "1e400", "99999999999999999999", "-", "é", "\U0001F41D", "\u0085", "\u2028", "\uFEFF", "each", "x-", "supply", "input",
    ];

    private static readonly Gen<string> Piece = Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i]);

    private static readonly Gen<string> Soup = Gen.OneOf(
        Piece.Array[0, 40].Select(pieces => string.Concat(pieces)),
        Gen.Select(Piece.Array[0, 12], Gen.String[0, 20], Piece.Array[0, 12]).Select((a, b, c) => string.Concat(a) + b + string.Concat(c)));

    [Fact]
    public void Any_text_is_answered() => Soup.Sample(
        text =>
        {
            foreach (var name in new[] { "a.radio.yaml", "a.radio.json" })
                AssertInside(Linter.Check(name, Encoding.UTF8.GetBytes(text)).Findings);
        },
        iter: 3_000);

    [Fact]
    public void Any_bytes_are_answered() => Gen.Select(Gen.Byte.Array[0, 30], Gen.Int[0, 400]).Sample(
        (bytes, at) =>
        {
            var whole = Encoding.UTF8.GetBytes(Example);
            AssertInside(Linter.Check("a.radio.yaml", [.. whole[..at], .. bytes, .. whole[at..]]).Findings);
        },
        iter: 500);

    [Fact]
    public void Any_edit_of_the_example_is_answered() => Gen.Select(Gen.Int[0, Example.Length - 10], Gen.Int[0, 9], Piece).Sample(
        (at, length, piece) => AssertInside(Linter.Check(new SourceText("a.radio.yaml", Example[..at] + piece + Example[(at + length)..])).Findings),
        iter: 500);

    // All positions of the first fixtures would be many minutes: each file is cut at every seventh, all residues taken in turn.
    [Fact]
    public void Every_fixture_cut_off_anywhere_is_answered()
    {
        var offset = 0;
        foreach (var file in Fixtures.All())
        {
            var bytes = File.ReadAllBytes(Path.Combine(Fixtures.Rules, file));
            for (var at = offset++ % 7; at < bytes.Length; at += 7)
                AssertInside(Linter.Check(file, bytes[..at]).Findings);
        }
        Assert.True(offset > 100, "fixtures");
    }

    [Fact]
    public void The_example_cut_off_anywhere_is_answered()
    {
        var bytes = Encoding.UTF8.GetBytes(Example);
        for (var at = 0; at < bytes.Length; at += 3)
            AssertInside(Linter.Check("a.radio.yaml", bytes[..at]).Findings);
    }

    // A draw once came to it: the parser gives the empty value behind the tag no end.
    [Fact]
    public void A_tag_before_nothing_has_a_place_inside() =>
        AssertInside(Linter.Check(new SourceText("draw.radio.yaml", "network: !nodes:\n: each|\n...\n>-\n]nodes:\n")).Findings);

    private static string Example { get; } =
        File.ReadAllText(Path.Combine(Fixtures.Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml"));

    private static void AssertInside(IEnumerable<Finding> findings)
    {
        foreach (var finding in findings)
        {
            var places = finding.Related.Select(related => related.Place).Append(finding.Place).Concat(finding.Fixes.SelectMany(fix => fix.Edits).Select(edit => edit.Place));
            foreach (var place in places)
            {
                Assert.InRange(place.Start, 0, place.Source.Text.Length);
                Assert.InRange(place.End, place.Start, place.Source.Text.Length);
                Assert.InRange(place.From.Line, 1, place.Source.LineCount);
                Assert.InRange(place.From.Column, 1, place.Source.Line(place.From.Line).Length + 2);
            }
            Assert.DoesNotContain('\n', finding.Message);
        }
    }
}
