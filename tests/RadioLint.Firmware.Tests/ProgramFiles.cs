using RadioLint.Cli.Emit;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>What a run with programs does to the folder, and one without to the programs.</summary>
public sealed class ProgramFiles : FieldRuns
{
    [Fact]
    public void Programs_come_when_asked_for_and_stay_known_when_not()
    {
        string[] extra =
        [
            "Makefile", "hub_bringup.c", "hub_gateway.c", "hub_hooks_avr.h", "hub_survey.c", "post_east_bringup.c", "post_east_hooks_avr.h", "post_east_survey.c",
            "post_north_bringup.c", "post_north_hooks_avr.h", "post_north_survey.c", "radio_report.h",
        ];
        Assert.Equal([.. Headers.Concat(extra).Order(StringComparer.Ordinal)], Names(RunPrograms(Field).Written));
        Assert.True(RunPrograms(Field, check: true).IsCurrent);
        // Without the option they are neither written nor forgotten nor left over.
        var record = File.ReadAllText(Record);
        var plain = Run(Field);
        Assert.Equal((Headers.Length, 0), (plain.Unchanged.Length, plain.LeftOver.Length));
        Assert.Equal(record, File.ReadAllText(Record));

        // Other pins: the hooks are stale, the programs that say no pin are not.
        var changed = Field.Replace("ce: D9", "ce: D7", StringComparison.Ordinal);
        Assert.Equal(["post_east_radio.h", "post_north_radio.h"], Names(RunPrograms(changed).Written).Where(name => name.EndsWith("_radio.h", StringComparison.Ordinal)));
        Assert.True(RunPrograms(changed, check: true).IsCurrent);

        File.AppendAllText(Path.Combine(Out, "hub_gateway.c"), "/* mine */\n");
        var refused = RunPrograms(changed.Replace("channel: 74", "channel: 70", StringComparison.Ordinal));
        Assert.Equal(["hub_gateway.c"], Names(refused.Edited));
        Assert.Empty(refused.Written);
        Assert.Empty(Run(changed, check: true).Edited);
    }

    [Fact]
    public void A_program_that_nobody_needs_any_more_is_left_over()
    {
        RunPrograms(Field);
        var without = Field.Replace("from: post, to: hub", "from: hub, to: post-north", StringComparison.Ordinal);
        Assert.Equal(["hub_gateway.c"], Names(RunPrograms(without).LeftOver));
        Assert.Equal(["hub_gateway.c"], Names(Run(without).LeftOver));
        Assert.Equal(
            ["hub_gateway.c", "post_east_bringup.c", "post_east_hooks_avr.h", "post_east_radio.h", "post_east_survey.c"],
            Names(Run(without.Replace("[east, north]", "[north]", StringComparison.Ordinal)).LeftOver));
    }

    [Fact]
    public void A_choice_of_nodes_writes_their_programs_and_the_whole_makefile()
    {
        var written = Names(RunPrograms(Field, nodes: ["post-east"]).Written).ToList();
        Assert.Equal(
            ["Makefile", "post_east_bringup.c", "post_east_hooks_avr.h", "post_east_radio.h", "post_east_survey.c", "radio_contract.h", "radio_link.h", "radio_report.h"],
            written);
        Assert.Contains("post-north", File.ReadAllText(Path.Combine(Out, "Makefile")), StringComparison.Ordinal);
        RunPrograms(Field);
        Assert.True(RunPrograms(Field, check: true, nodes: ["hub"]).IsCurrent);
    }

    [Fact]
    public void A_record_of_before_the_link_layer_still_reads()
    {
        Run(Field);
        var text = File.ReadAllText(Record);
        var older = System.Text.RegularExpressions.Regex.Replace(text, @"\s*""files"": \{[^}]*\},", "");
        Assert.NotEqual(text, older);
        var (issue, fault) = IssueFile.Read(older);
        Assert.Null(fault);
        Assert.Empty(issue!.Now.Others);
        File.WriteAllText(Record, older);
        File.Delete(Path.Combine(Out, EmitSet.LinkFile));
        Assert.Equal([EmitSet.LinkFile], Names(Run(Field).Written));
        Assert.Equal([EmitSet.LinkFile], IssueFile.Read(File.ReadAllText(Record)).Issue!.Now.Others.Select(other => other.Name));
    }

    private EmitReport RunPrograms(string manifest, bool check = false, params string[] nodes) => Run(manifest, check, programs: true, nodes: nodes);
}
