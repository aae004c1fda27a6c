using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>What a fixture's marks cannot say: the other end, groups told of once, rules that wait.</summary>
public sealed class LinkRuleTests
{
    [Fact]
    public void Both_ends_of_a_mismatch_are_pointed_at()
    {
        var finding = Assert.Single(Found(SmallNetwork.With(far: "air: { channel: 75, crc: 1 byte }"), "RL4202"));
        Assert.Equal("75", finding.Place.Text);
        Assert.Equal(["74", "1 byte", "hub"], finding.Related.Select(other => other.Place.Text));
    }

    [Fact]
    public void A_group_is_told_of_once()
    {
        var finding = Assert.Single(Found(SmallNetwork.With(far: "each: 1..4, air: { rate: 2 Mbps }"), "RL4202"));
        Assert.Contains("rate 2 Mbps at `far`, 1 Mbps at `hub`", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_open_channel_differs_from_nothing() =>
        Assert.Empty(Found(SmallNetwork.With(far: "air: { channel: open }"), "RL4202"));

    [Fact]
    public void An_own_pipe_without_address_is_a_missing_fact()
    {
        var finding = Assert.Single(Found(SmallNetwork.With(hub: "pipes: { 1: { acknowledge: true } }"), "RL8304"), one => one.Message.Contains("RL4201", StringComparison.Ordinal));
        Assert.Contains("`pipes.1.address` (RL4201)", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_field_that_did_not_read_is_no_length()
    {
        var text = SmallNetwork.With(air: "payload-length: 4 bytes", hub: "air: { payload-length: exact }", payload: "count: uint16, rest: uint7");
        Assert.Empty(Found(text, "RL4202"));
        Assert.Single(Found(text, "RL8005"));
    }

    [Fact]
    public void A_wider_type_is_put_in_the_place_of_the_word_alone()
    {
        var text = SmallNetwork.With(payload: "level: \"3 x unsigned in 0..200\"");
        var edit = Assert.Single(Assert.Single(Assert.Single(Found(text, "RL6001")).Fixes).Edits);
        Assert.Equal(("unsigned", "uint8"), (edit.Place.Text, edit.NewText));
    }

    // A fixture's mark would be a remark inside the block, which is not written over.
    [Fact]
    public void An_address_in_a_block_is_written_anew()
    {
        var text = SmallNetwork.With().Replace(
            "  - { from: far, to: hub, payload: reading, every: 1 min }", "  - from: far\n    to: hub\n    payload: reading\n    address:\n      text: N001a\n      order: register", StringComparison.Ordinal);
        var edit = Assert.Single(Assert.Single(Assert.Single(Found(text, "RL4004")).Fixes).Edits);
        Assert.Equal("text: N001a\n      order: register", edit.Place.Text);
        var mended = text[..edit.Place.Start] + edit.NewText + text[edit.Place.End..];
        Assert.Empty(Linter.Check(new SourceText("small.radio.yaml", mended)).Findings.Where(finding => finding.Severity is Severity.Error || finding.Rule.Id == "RL4004"));
    }

    // So that all offers can be taken at once.
    [Fact]
    public void Twins_of_one_number_each_get_a_free_one()
    {
        var found = Found(SmallNetwork.With(hub: "number: 1", far: "number: 1").Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, number: 1 }\nlinks:", StringComparison.Ordinal), "RL4210");
        Assert.Equal(["2", "3"], found.Select(finding => Assert.Single(Assert.Single(finding.Fixes).Edits).NewText));
    }

    private static IReadOnlyList<Finding> Found(string text, string rule) =>
        [.. Linter.Check(new SourceText("small.radio.yaml", text)).Findings.Where(finding => finding.Rule.Id == rule)];
}
