using System.Globalization;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>What `emit` says and when it refuses; what it writes is tested where it is made.</summary>
public sealed class EmitTests
{
    private const string Header = "firmware/shed_radio.h";

    [Fact]
    public void Writes_then_leaves_untouched_then_tells_what_is_stale()
    {
        using var folder = new Apiary();
        var first = folder.Emit();
        Assert.Equal((ExitStatus.Passed, ""), (first.Status, first.Notes));
        Assert.Contains($"written    {folder.At(Header)}\n", first.Results, StringComparison.Ordinal);
        Assert.True(File.Exists(folder.At(Header)));

        var second = folder.Emit();
        Assert.Equal(ExitStatus.Passed, second.Status);
        Assert.Equal(first.Results.Replace("written", "unchanged", StringComparison.Ordinal).Replace("unchanged    ", "unchanged  ", StringComparison.Ordinal), second.Results);
        Assert.Equal(ExitStatus.Passed, folder.Emit("--check").Status);

        var record = File.ReadAllText(folder.At("larkfield-apiary.radio.issued.json"));
        folder.Change("channel: 74", "channel: 76");
        var check = folder.Emit("--check");
        Assert.Equal(ExitStatus.Failed, check.Status);
        Assert.Contains($"stale      {folder.At(Header)}\n", check.Results, StringComparison.Ordinal);
        Assert.Equal(record, File.ReadAllText(folder.At("larkfield-apiary.radio.issued.json")));
    }

    [Fact]
    public void A_layout_that_changed_under_its_version_is_not_emitted()
    {
        using var folder = new Apiary();
        folder.Change("battery: uint16 mV, sequence: uint8 }", "battery: uint16 mV, version: uint8 = 1, sequence: uint8 }");
        Assert.Equal(ExitStatus.Passed, folder.Emit().Status);
        folder.Change("battery: uint16 mV", "battery: uint32 mV");
        var refused = folder.Emit();
        Assert.Equal(ExitStatus.Failed, refused.Status);
        Assert.Contains("error RL6201: `reading` is version 1, which was issued with the layout ", refused.Results, StringComparison.Ordinal);
        folder.Change("version: uint8 = 1", "version: uint8 = 2");
        Assert.Equal(ExitStatus.Passed, folder.Emit().Status);
    }

    [Fact]
    public void Programs_come_when_asked_for()
    {
        using var folder = new Apiary();
        Assert.Equal(ExitStatus.Passed, folder.Emit("--programs").Status);
        foreach (var name in new[] { "Makefile", "radio_report.h", "hive_1_hooks_avr.h", "hive_1_bringup.c", "shed_survey.c", "shed_gateway.c" })
            Assert.True(File.Exists(folder.At($"firmware/{name}")), name);
        Assert.False(File.Exists(folder.At("firmware/shed_hooks_avr.h")));
        Assert.Equal(ExitStatus.Passed, folder.Emit("--programs", "--check").Status);
        File.Delete(folder.At("firmware/shed_gateway.c"));
        Assert.Equal(ExitStatus.Passed, folder.Emit("--check").Status);
        Assert.Contains($"stale      {folder.At("firmware/shed_gateway.c")}\n", folder.Emit("--programs", "--check").Results, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_edited_by_hand_is_kept_unless_forced()
    {
        using var folder = new Apiary();
        folder.Emit();
        File.AppendAllText(folder.At(Header), "/* mine */\n");
        var refused = folder.Emit();
        Assert.Equal(ExitStatus.Failed, refused.Status);
        Assert.Contains($"edited     {folder.At(Header)}\n", refused.Results, StringComparison.Ordinal);
        Assert.Contains("\nhelp: nothing is written; move ", refused.Results, StringComparison.Ordinal);
        Assert.EndsWith("/* mine */\n", File.ReadAllText(folder.At(Header)), StringComparison.Ordinal);
        Assert.Equal(ExitStatus.Passed, folder.Emit("--force").Status);
        Assert.DoesNotContain("mine", File.ReadAllText(folder.At(Header)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("channel: 74", "channel: 126", "error RL3001")]
    [InlineData("channel: 74", "channel: open", "error RL8305")]
    public void An_error_or_an_open_setting_keeps_everything_from_being_written(string before, string after, string finding)
    {
        using var folder = new Apiary();
        folder.Change(before, after);
        var run = folder.Emit("--rule", "RL8305=silent");
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.Contains(finding, run.Results, StringComparison.Ordinal);
        Assert.Equal("radiolint: nothing is written: 1 error to mend first\n", run.Notes);
        Assert.False(Directory.Exists(folder.At("firmware")));
    }

    [Fact]
    public void One_node_a_wrong_node_and_a_wrong_place()
    {
        using var folder = new Apiary();
        Assert.Equal(ExitStatus.Passed, folder.Emit("--node", "shed").Status);
        Assert.False(File.Exists(folder.At("firmware/nursery_radio.h")));
        var unknown = folder.Emit("--node", "shad");
        Assert.Equal((ExitStatus.NotDone, "radiolint: the manifest has no node or group `shad`; the nearest is `shed`\n"), (unknown.Status, unknown.Notes));

        Assert.Equal((ExitStatus.NotDone, $"radiolint: `{folder.Path}` is a folder, and `radiolint emit` takes one manifest; name a file\n"), Refused(folder.Path));
        Assert.Equal((ExitStatus.NotDone, "radiolint: cannot read `gone`: there is no such file or folder\n"), Refused("gone"));
        Assert.Equal(ExitStatus.NotDone, Refused("-").Status);
        folder.Write("a-file", "");
        var blocked = CommandRun.Of(folder.Path, "emit", folder.Manifest, "--out", folder.At("a-file/below"));
        Assert.Equal(ExitStatus.NotDone, blocked.Status);
        Assert.StartsWith($"radiolint: cannot bring `{folder.At("a-file/below")}` and the record beside ", blocked.Notes, StringComparison.Ordinal);

        (ExitStatus Status, string Notes) Refused(string manifest)
        {
            var run = CommandRun.Of(folder.Path, "emit", manifest, "--out", folder.At("firmware"));
            return (run.Status, run.Notes);
        }
    }

    [Fact]
    public void What_a_header_was_made_from_stands_in_the_depfile()
    {
        using var folder = new Apiary();
        folder.Write("parts.yaml", "payloads: { spare: { sequence: uint8 } }\n");
        folder.Write(".radiolint.yaml", "rules: { RL8304: silent }\n");
        folder.Change("network: larkfield-apiary\n", "network: larkfield-apiary\ninclude: [parts.yaml]\n");
        Assert.Equal(ExitStatus.Passed, folder.Emit("--depfile", folder.At("headers.d")).Status);
        var text = File.ReadAllText(folder.At("headers.d"));
        Assert.Contains("larkfield-apiary.radio.yaml", text, StringComparison.Ordinal);
        Assert.Contains("parts.yaml", text, StringComparison.Ordinal);
        Assert.Contains(".radiolint.yaml", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Plain_lists_say_what_was_made_from_what()
    {
        using var folder = new Apiary();
        folder.Write("parts.yaml", "payloads: { spare: { sequence: uint8 } }\n");
        folder.Write(".radiolint.yaml", "rules: { RL8304: silent }\n");
        folder.Change("network: larkfield-apiary\n", "network: larkfield-apiary\ninclude: [parts.yaml]\n");
        folder.Write("own/frames.sbn", File.ReadAllText(Path.Combine(Repository.Root, "templates", "firmware", "frames.sbn")));
        Assert.Equal(ExitStatus.Passed, folder.Emit("--node", "shed", "--templates", folder.At("own"), "--made", folder.At("made.txt"), "--read", folder.At("read.txt")).Status);
        Assert.Equal(
            [folder.At("firmware/radio_contract.h"), folder.At("firmware/radio_link.h"), folder.At(Header), folder.At("larkfield-apiary.radio.issued.json")],
            File.ReadAllLines(folder.At("made.txt")));
        Assert.Equal(
            [folder.At(".radiolint.yaml"), folder.At("larkfield-apiary.radio.yaml"), folder.At("own/frames.sbn"), folder.At("parts.yaml")],
            File.ReadAllLines(folder.At("read.txt")).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void What_the_folder_shows_are_findings_in_its_files()
    {
        using var folder = new Apiary();
        folder.Emit();
        var digest = Digest(folder.At(Header));
        folder.Change("    each: 1..3", "    each: 1..2");
        folder.Change("channel: 74", "channel: 76");
        File.AppendAllText(folder.At("firmware/nursery_radio.h"), "/* mine */\n");
        var check = folder.Emit("--check");
        Assert.Equal(ExitStatus.Failed, check.Status);
        // The digest stands in the header, and the finding is there: with the old one, and the one that the manifest gives now.
        var place = File.ReadAllText(folder.At(Header)).Split('\n').Index().First(line => line.Item.Contains(digest, StringComparison.Ordinal));
        Assert.Matches(
            string.Create(CultureInfo.InvariantCulture, $"shed_radio\\.h:{place.Index + 1}:{place.Item.IndexOf(digest, StringComparison.Ordinal) + 1}: error RL8201: this file was made from digest {digest}, and the manifest now gives [0-9A-F]{{8}}\n"),
            check.Results);
        Assert.Contains("/nursery_radio.h:1:1: error RL8202: this file was edited by hand", check.Results, StringComparison.Ordinal);
        Assert.Contains("/hive_3_radio.h:1:1: warning RL8205: no node of the manifest uses this file", check.Results, StringComparison.Ordinal);
        Assert.Contains("/larkfield-apiary.radio.issued.json:1:1: error RL8201: this file is not what the manifest gives now", check.Results, StringComparison.Ordinal);

        // What is only looked at is judged as everything else is.
        var lowered = folder.Emit("--check", "--rule", "RL8201=warning", "--rule", "RL8202=info", "--rule", "RL8205=silent");
        Assert.Equal(ExitStatus.Passed, lowered.Status);
        Assert.DoesNotContain("RL8205", lowered.Results, StringComparison.Ordinal);
        folder.Change("rules:\n", "rules:\n  RL8201: warning\n  allow: [ { rule: RL8202, because: it is on the bench } ]\n");
        Assert.Equal(ExitStatus.Passed, folder.Emit("--check").Status);
        // But nothing is written over it.
        Assert.Equal(ExitStatus.Failed, folder.Emit("--rule", "RL8202=silent").Status);

        static string Digest(string header) => System.Text.RegularExpressions.Regex.Match(File.ReadAllText(header), "_DIGEST +0x([0-9A-F]{8})").Groups[1].Value;
    }

    [Fact]
    public void What_stands_in_the_way_is_said_as_MSBuild_reads_it()
    {
        using var folder = new Apiary();
        folder.Emit();
        File.AppendAllText(folder.At(Header), "/* mine */\n");
        Assert.Equal([$"{folder.At(Header)}(1,1): error RL8202: this file was edited by hand, or was issued from no manifest; move the edit into the manifest or a template and delete the file, or use `--force` to overwrite it"], Errors());
        File.Delete(folder.At(Header));
        var shed = File.ReadAllText(folder.Manifest).Split('\n').Index().Single(line => line.Item == "  shed:").Index + 1;
        Assert.Equal([string.Create(CultureInfo.InvariantCulture, $"{folder.Manifest}({shed},3): error RL8201: `{folder.At(Header)}` is not there; emit again")], Errors("--check"));
        Assert.Empty(Errors());

        folder.Change("channel: 74", "channel: 126");
        var place = File.ReadAllText(folder.Manifest).Split('\n').Index().Single(line => line.Item.Contains("channel: 126", StringComparison.Ordinal));
        Assert.StartsWith(
            string.Create(CultureInfo.InvariantCulture, $"{folder.Manifest}({place.Index + 1},{place.Item.IndexOf("126", StringComparison.Ordinal) + 1}): error RL3001: "),
            Assert.Single(Errors()), StringComparison.Ordinal);

        IEnumerable<string> Errors(params string[] more)
        {
            var run = folder.Emit(["--format", "build", .. more]);
            var errors = run.Results.Split('\n').Where(line => line.Contains(": error", StringComparison.Ordinal)).ToList();
            Assert.Equal(errors.Count == 0 ? ExitStatus.Passed : ExitStatus.Failed, run.Status);
            return errors;
        }
    }

    /// <summary>A copy of the example.</summary>
    private sealed class Apiary : IDisposable
    {
        private readonly TemporaryFolder folder = new();

        public Apiary() => folder.Write("larkfield-apiary.radio.yaml", File.ReadAllText(Repository.Apiary));

        public string Path => folder.Path;

        public string Manifest => folder.At("larkfield-apiary.radio.yaml");

        public string At(string below) => folder.At(below);

        public void Write(string below, string text) => folder.Write(below, text);

        public CommandRun Emit(params string[] more) => CommandRun.Of(Path, ["emit", Manifest, "--out", At("firmware"), .. more]);

        public void Change(string before, string after)
        {
            var text = File.ReadAllText(Manifest);
            Assert.Contains(before, text, StringComparison.Ordinal);
            File.WriteAllText(Manifest, text.Replace(before, after, StringComparison.Ordinal));
        }

        public void Dispose() => folder.Dispose();
    }
}
