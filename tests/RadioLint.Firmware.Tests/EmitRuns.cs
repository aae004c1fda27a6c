using RadioLint.Cli.Emit;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>What a run does to the folder, and what it says of it.</summary>
public sealed class EmitRuns : FieldRuns
{
    [Fact]
    public void First_run_writes_all_and_the_next_touches_nothing()
    {
        var first = Run(Field);
        Assert.Equal(Headers, Names(first.Written));
        Assert.True(first.IsCurrent);
        var record = File.ReadAllText(Record);
        var past = new DateTime(2020, 1, 1, 0, 0, 0, DateTimeKind.Utc);
        foreach (var file in Directory.GetFiles(Out).Append(Record))
            File.SetLastWriteTimeUtc(file, past);

        var second = Run(Field);
        Assert.Empty(second.Written);
        Assert.Equal(Headers, Names(second.Unchanged));
        Assert.True(second.IsCurrent);
        Assert.All(Directory.GetFiles(Out).Append(Record), file => Assert.Equal(past, File.GetLastWriteTimeUtc(file)));
        Assert.Equal(record, File.ReadAllText(Record));
        Assert.Empty(Directory.GetFiles(Shop.Folder, "*.new", SearchOption.AllDirectories));
    }

    [Fact]
    public void A_change_writes_what_it_changes_and_remembers_the_issue_before()
    {
        Run(Field);
        var (before, _) = IssueFile.Read(File.ReadAllText(Record));
        var changed = Field.Replace("csn: D10", "csn: D8", StringComparison.Ordinal);
        Assert.Equal(["post_east_radio.h", "post_north_radio.h"], Names(Run(changed, check: true).Stale).Where(name => name.EndsWith(".h", StringComparison.Ordinal)));
        Assert.Equal(["post_east_radio.h", "post_north_radio.h"], Names(Run(changed).Written));
        var (after, fault) = IssueFile.Read(File.ReadAllText(Record));
        Assert.Null(fault);
        Assert.True(before!.Now.IsSameAs(after!.Before));
        Assert.False(before.Now.IsSameAs(after.Now));
        // An emit that changes nothing forgets nothing.
        Run(changed);
        Assert.True(before.Now.IsSameAs(IssueFile.Read(File.ReadAllText(Record)).Issue!.Before));
    }

    [Fact]
    public void Only_checking_writes_nothing_at_all()
    {
        var report = Run(Field, check: true);
        Assert.Equal([.. Headers, "field.radio.issued.json"], Names(report.Stale));
        Assert.False(report.IsCurrent);
        Assert.Empty(Directory.GetFileSystemEntries(Shop.Folder));
        Run(Field);
        Assert.True(Run(Field, check: true).IsCurrent);
        // A header was committed and its record was not.
        File.Delete(Record);
        Assert.Equal(["field.radio.issued.json"], Names(Run(Field, check: true).Stale));
    }

    [Fact]
    public void What_was_edited_by_hand_stays_unless_forced()
    {
        Run(Field);
        var edited = Path.Combine(Out, "hub_radio.h");
        File.AppendAllText(edited, "/* mine */\n");
        var changed = Field.Replace("channel: 74", "channel: 70", StringComparison.Ordinal);
        var before = Contents();
        foreach (var check in new[] { true, false })
        {
            var report = Run(changed, check: check);
            Assert.Equal(["hub_radio.h"], Names(report.Edited));
            Assert.Contains("post_east_radio.h", Names(report.Stale));
            Assert.Empty(report.Written);
            Assert.False(report.IsCurrent);
            // Half a network on the new channel would be worse than none.
            Assert.Equal(before, Contents());
        }
        Assert.Contains("hub_radio.h", Names(Run(changed, force: true).Written));
        Assert.DoesNotContain("mine", File.ReadAllText(edited), StringComparison.Ordinal);
    }

    [Fact]
    public void Line_ends_of_a_checkout_are_no_edit()
    {
        Run(Field);
        foreach (var file in Directory.GetFiles(Out))
            File.WriteAllText(file, File.ReadAllText(file).Replace("\n", "\r\n", StringComparison.Ordinal));
        Assert.Equal(Headers, Names(Run(Field).Unchanged));
        Assert.Empty(Run(Field.Replace("channel: 74", "channel: 70", StringComparison.Ordinal)).Edited);
    }

    [Fact]
    public void Files_of_nodes_that_are_gone_are_named_and_kept()
    {
        Run(Field);
        var without = Field.Replace("[east, north]", "[east]", StringComparison.Ordinal);
        // Twice: the record goes on knowing them while they lie there, also after a further issue.
        for (var i = 0; i < 2; i++)
            Assert.Equal(["post_north_radio.h"], Names(Run(without).LeftOver));
        Assert.Equal(["post_north_radio.h"], Names(Run(without.Replace("channel: 74", "channel: 70", StringComparison.Ordinal)).LeftOver));
        Assert.Equal(["post_north_radio.h"], Names(Run(without.Replace("channel: 74", "channel: 68", StringComparison.Ordinal)).LeftOver));
        Assert.True(File.Exists(Path.Combine(Out, "post_north_radio.h")));
        File.Delete(Path.Combine(Out, "post_north_radio.h"));
        Assert.Empty(Run(without).LeftOver);
    }

    [Fact]
    public void A_choice_of_nodes_leaves_the_others_as_they_were_issued()
    {
        Run(Field);
        var changed = Field.Replace("channel: 74", "channel: 70", StringComparison.Ordinal);
        Assert.Equal(["post_east_radio.h"], Names(Run(changed, nodes: ["post-east"]).Written));
        var nodes = IssueFile.Read(File.ReadAllText(Record)).Issue!.Now.Nodes;
        Assert.Equal(["hub", "post-east", "post-north"], nodes.Select(node => node.Name));
        Assert.Equal([true, false, true], nodes.Select(node => node.Frames.Contains("254A")));
        Assert.Equal(["hub_radio.h", "post_north_radio.h"], Names(Run(changed, check: true).Stale).Where(name => name.EndsWith(".h", StringComparison.Ordinal)));
        Assert.Equal(["post_north_radio.h"], Names(Run(changed, nodes: ["post"]).Written));
    }

    [Fact]
    public void An_unknown_node_is_named_with_the_nearest()
    {
        var report = Run(Field, nodes: ["post-esat", "hub"]);
        Assert.Equal([("post-esat", "post-east")], report.UnknownNodes);
        Assert.Empty(Directory.GetFileSystemEntries(Shop.Folder));
        Assert.False(report.IsCurrent);
    }

    [Fact]
    public void Another_network_of_the_same_folder_is_not_overwritten()
    {
        Run(Field);
        var other = Field.Replace("network: field", "network: meadow", StringComparison.Ordinal);
        var report = EmitRun.Execute(Emitted.Network("meadow.radio.yaml", other), new() { Manifest = Path.Combine(Shop.Folder, "meadow.radio.yaml"), Out = Out });
        Assert.Equal(["RL8204", "RL8204", "RL8204"], report.Findings.Select(finding => finding.Rule.Id));
        Assert.Equal("meadow.radio.yaml:7:3", report.Findings[0].Place.ToString());
        Assert.Equal("node `hub` writes `hub_radio.h`, which was written for network `field`", report.Findings[0].Message);
        Assert.Empty(report.Written);
        Assert.False(File.Exists(Path.Combine(Shop.Folder, "meadow.radio.issued.json")));
    }

    [Fact]
    public void A_broken_record_stops_the_run_unless_forced()
    {
        Run(Field);
        foreach (var broken in new[] { "", "{", "[]", "{}", "{\"format\": 2}", "{\"format\": 1, \"network\": \"field\", \"now\": 3, \"left-over\": {}}" })
        {
            File.WriteAllText(Record, broken);
            var report = Run(Field);
            var finding = Assert.Single(report.Findings);
            Assert.Equal(("RL8001", Severity.Error), (finding.Rule.Id, finding.Severity));
            Assert.EndsWith("field.radio.issued.json:1:1", finding.Place.ToString(), StringComparison.Ordinal);
            Assert.Empty(report.Written);
        }
        Assert.True(Run(Field, force: true).IsCurrent);
        Assert.Null(IssueFile.Read(File.ReadAllText(Record)).Fault);
    }

    [Fact]
    public void A_record_cannot_point_out_of_the_folder()
    {
        Run(Field);
        Shop.Write("secret", "x");
        File.WriteAllText(Record, File.ReadAllText(Record).Replace("post_north_radio.h", "../secret", StringComparison.Ordinal));
        Assert.Empty(Run(Field.Replace("[east, north]", "[east]", StringComparison.Ordinal)).LeftOver);
    }

    [Fact]
    public void Dependencies_are_written_for_make()
    {
        Shop.Write("my templates/frames.sbn", Templates.BuiltIn["frames.sbn"]!);
        Shop.Write("my templates/unused.sbn", "{{ nonsense");
        var report = EmitRun.Execute(Emitted.Network("field.radio.yaml", Field), new()
        {
            Manifest = Manifest,
            Out = Out,
            Templates = Path.Combine(Shop.Folder, "my templates"),
            Depfile = Path.Combine(Shop.Folder, "field.d"),
            AlsoRead = [Path.Combine(Shop.Folder, "boards$1#.yaml")],
        });
        Assert.Equal(Headers, Names(report.Written));
        var folder = Shop.Folder;
        Assert.Equal(
            $"{Out}/radio_contract.h {Out}/radio_link.h {Out}/hub_radio.h {Out}/post_east_radio.h {Out}/post_north_radio.h: \\\n"
            + $"  {folder}/boards$$1\\#.yaml \\\n  {folder}/field.radio.yaml \\\n  {folder}/my\\ templates/frames.sbn\n",
            File.ReadAllText(Path.Combine(folder, "field.d")));
    }

    [Fact]
    public async Task Make_understands_them()
    {
        Shop.Write("field.radio.yaml", Field);
        EmitRun.Execute(Emitted.Network("field.radio.yaml", Field), new() { Manifest = Manifest, Out = Path.Combine(Shop.Folder, "out put"), Depfile = Path.Combine(Shop.Folder, "field.d") });
        Shop.Write("Makefile", File.ReadAllText(Path.Combine(Shop.Folder, "field.d")) + "\t@echo made\n");
        Assert.Contains("is up to date", await Shop.MustRun("make", Path.Combine(Shop.Folder, "out put", "hub_radio.h")), StringComparison.Ordinal);
        File.SetLastWriteTimeUtc(Path.Combine(Shop.Folder, "out put", "hub_radio.h"), new(2020, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        Assert.Equal("made\n", await Shop.MustRun("make", Path.Combine(Shop.Folder, "out put", "hub_radio.h")));
    }

    [Theory]
    [InlineData("apiary.radio.yaml", "apiary.radio.issued.json")]
    [InlineData("a/b.radio.json", "a/b.radio.issued.json")]
    [InlineData("plain.yaml", "plain.radio.issued.json")]
    [InlineData("-", "-.radio.issued.json")]
    public void The_record_lies_beside_the_manifest(string manifest, string record) => Assert.Equal(record, IssueFile.NameFor(manifest));

    private string Contents() => string.Concat(Directory.GetFiles(Shop.Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(file => File.ReadAllText(file)));
}
