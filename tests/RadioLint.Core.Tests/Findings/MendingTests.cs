using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Findings;

/// <summary>What a fix may do: mend what it is for, touch nothing else, and, where it is safe, leave every register as it was.</summary>
public sealed class MendingTests
{
    public static TheoryData<string> Files() => [.. Fixtures.All()];

    [Theory, MemberData(nameof(Files))]
    public void A_safe_edit_mends_brings_nothing_new_and_leaves_the_registers(string file)
    {
        var (source, before) = Read(file);
        var mended = Mending.Apply(source, before.Findings, FixGrade.Safe);
        if (mended.Made.IsEmpty)
            return;
        Assert.All(mended.Made, made => Assert.Equal(FixGrade.Safe, made.Fix.Grade));
        var after = Linter.Check(new SourceText(file, mended.Text), Fixtures.Options(file[..6], file));
        var left = after.Findings.Select(Words).ToList();
        Assert.All(mended.Made, made => Assert.DoesNotContain(Words(made.Finding), left));
        Assert.Empty(left.Except(before.Findings.Select(Words)));
        if (before.Network is not null)
            Assert.Equal(Images(before.Network), Images(after.Network!));
    }

    [Theory, MemberData(nameof(Files))]
    public void What_is_outside_the_edits_stays(string file)
    {
        var (source, before) = Read(file);
        var mended = Mending.Apply(source, before.Findings, FixGrade.Offered);
        var edits = mended.Made.SelectMany(made => made.Fix.Edits).Distinct().OrderBy(edit => edit.Place.Start).ToList();
        // Piece by piece: what stands between two edits, then the edit.
        var (old, now) = (0, 0);
        foreach (var edit in edits)
        {
            var between = edit.Place.Start - old;
            Assert.Equal(source.Text.Substring(old, between), mended.Text.Substring(now, between));
            now += between;
            Assert.Equal(edit.NewText, mended.Text.Substring(now, edit.NewText.Length));
            now += edit.NewText.Length;
            old = edit.Place.End;
        }
        Assert.Equal(source.Text[old..], mended.Text[now..]);
    }

    [Theory, MemberData(nameof(Files))]
    public void Round_by_round_it_comes_to_rest(string file)
    {
        var (source, result) = Read(file);
        for (var round = 0; round < 8; round++)
        {
            var mended = Mending.Apply(source, result.Findings, FixGrade.Offered);
            if (mended.Made.IsEmpty)
                return;
            source = new(file, mended.Text);
            result = Linter.Check(source, Fixtures.Options(file[..6], file));
            Assert.True(result.Network is not null || Read(file).Result.Network is null, "the file can no longer be read");
        }
        Assert.Fail("fixes are made for ever");
    }

    private static readonly SourceText Line = new("line", "0123456789");

    [Fact]
    public void Edits_that_overlap_are_made_one_after_the_other()
    {
        var mended = Mending.Apply(Line, [Of((2, 3, "A")), Of((4, 2, "B")), Of((7, 1, "C"))], FixGrade.Safe);
        Assert.Equal(("01A56C89", 2), (mended.Text, mended.Made.Length));
    }

    [Fact]
    public void A_fix_is_made_whole_or_not_at_all()
    {
        var mended = Mending.Apply(Line, [Of((2, 1, "A")), Of((2, 1, "X"), (8, 1, "Y"))], FixGrade.Safe);
        Assert.Equal(("01A3456789", 1), (mended.Text, mended.Made.Length));
    }

    [Fact]
    public void Two_insertions_at_one_place_need_an_order_and_wait() =>
        Assert.Equal("01A23456789", Mending.Apply(Line, [Of((2, 0, "A")), Of((2, 0, "B"))], FixGrade.Safe).Text);

    [Fact]
    public void The_same_edit_wanted_twice_is_made_once()
    {
        var mended = Mending.Apply(Line, [Of((2, 1, "A")), Of((2, 1, "A"))], FixGrade.Safe);
        Assert.Equal(("01A3456789", 2), (mended.Text, mended.Made.Length));
    }

    [Fact]
    public void Neighbours_do_not_overlap() =>
        Assert.Equal("01AB456789", Mending.Apply(Line, [Of((2, 1, "A")), Of((3, 1, "B"))], FixGrade.Safe).Text);

    [Fact]
    public void Another_file_is_left_alone()
    {
        var other = new Fix(FixGrade.Safe, "Mend", [new(new(new SourceText("other", "0123"), 1, 1), "X")]);
        Assert.Empty(Mending.Apply(Line, [new Finding(RadioLint.Rules.Catalogue.All[0], new(Line, 0, 1), "m", "h") { Fixes = [other] }], FixGrade.Offered).Made);
    }

    [Fact]
    public void Offered_edits_wait_until_they_are_asked_for()
    {
        var offered = Of((2, 1, "A"));
        offered = offered with { Fixes = [offered.Fixes[0] with { Grade = FixGrade.Offered }] };
        Assert.Empty(Mending.Apply(Line, [offered], FixGrade.Safe).Made);
        Assert.Single(Mending.Apply(Line, [offered], FixGrade.Offered).Made);
    }

    private static Finding Of(params (int Start, int Length, string Text)[] edits) => new(RadioLint.Rules.Catalogue.All[0], new(Line, edits[0].Start, 1), "m", "h")
    {
        Fixes = [new(FixGrade.Safe, "Mend", [.. edits.Select(edit => new Edit(new(Line, edit.Start, edit.Length), edit.Text))])],
    };

    private static (SourceText Source, CheckResult Result) Read(string file)
    {
        var source = new SourceText(file, File.ReadAllText(Path.Combine(Fixtures.Rules, file)));
        var result = Linter.Check(source, Fixtures.Options(file[..6], file));
        return (source, result);
    }

    private static string Words(Finding finding) => $"{finding.Rule.Id} {finding.Message}";

    private static List<string> Images(Network network) =>
        [.. network.Nodes.Select(node => $"{node.Name} {string.Join(" ", network.Plan.Of(node).Image?.Frames.Select(frame => Convert.ToHexString(frame.Bytes.ToArray())) ?? [])}")];
}
