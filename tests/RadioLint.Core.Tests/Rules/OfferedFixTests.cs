using System.Text.Json;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>An offered edit mends what it is offered for, in block style, in flow style and in JSON.</summary>
public sealed class OfferedFixTests
{
    public static TheoryData<string> Files() =>
        [.. Fixtures.All().Where(file => IsMended(file) && file.EndsWith(".yaml", StringComparison.Ordinal))];

    // Errors of reading: an edit adds none.
    private static IEnumerable<string> Unread(IEnumerable<Finding> findings) =>
        findings.Where(other => other.Severity is Severity.Error && other.Rule.Id.StartsWith("RL80", StringComparison.Ordinal)).Select(other => $"{other.Rule.Id} {other.Message}");

    private static bool IsMended(string id) => id[2] is '4' or '5' or '6' or '7' || id.StartsWith("RL10", StringComparison.Ordinal);

    [Theory, MemberData(nameof(Files))]
    public void What_was_wrong_is_gone(string file)
    {
        var text = File.ReadAllText(Path.Combine(Fixtures.Rules, file));
        foreach (var finding in Check(text))
        {
            foreach (var fix in finding.Fixes.Where(_ => IsMended(finding.Rule.Id)))
            {
                var mended = Apply(text, fix);
                Assert.NotEqual(text, mended);
                var left = Check(mended);
                Assert.Empty(Unread(left).Except(Unread(Check(text))));
                Assert.DoesNotContain(left, other => other.Rule.Id == finding.Rule.Id && other.Message == finding.Message && other.Place.From == finding.Place.From);
            }
        }
    }

    // A byte has 255 numbers for types, and two payloads lack one: where one number is left none is offered.
    [Theory, InlineData(253, true), InlineData(254, false)]
    public void A_type_is_offered_while_a_number_is_left(int taken, bool isOffered)
    {
        var text = SmallNetwork.With(links: "  - { from: far, to: hub, payload: order }").Replace(
            "payloads:", "payloads:\n" + string.Concat(Enumerable.Range(1, taken - 1).Select(i => FormattableString.Invariant($"  p{i}: {{ type: uint8 = {i}, what: uint8 }}\n"))) + FormattableString.Invariant($"  last: {{ type: uint8 = {taken}, what: uint8 }}"),
            StringComparison.Ordinal);
        var finding = Assert.Single(Check(text), one => one.Rule.Id == "RL6202");
        Assert.Equal(isOffered, !finding.Fixes.IsEmpty);
    }

    // The name goes into the list in quotes, as all text of JSON does.
    [Fact]
    public void A_name_in_a_list_of_json_has_quotes()
    {
        var text = Head + """ "hub": { "board": "esp32", "pins": { "ce": "GPIO27", "csn": "GPIO5" } }, "far": { "board": "atmega328p", "pins": { "ce": "D9", "csn": "D10" } } }, """
            + """ "payloads": { "reading": { "fields": { "mark": "uint8", "level": "uint16" }, "order": ["level", "mark"] } }, "links": [ { "from": "far", "to": "hub", "payload": "reading" } ] }""";
        var fix = Assert.Single(Assert.Single(Check(text), one => one.Rule.Id == "RL6204").Fixes);
        var mended = Apply(text, fix);
        using var json = JsonDocument.Parse(mended);
        Assert.Contains("[\"level\", \"mark\", \"sequence\"]", mended, StringComparison.Ordinal);
    }

    private const string Head = """{ "radiolint": 1, "network": "cellar", "region": "GB", "air": { "channel": 74, "rate": "1 Mbps" }, "nodes": { """;
    private const string Far = """ "far": { "board": "atmega328p", "pins": { "ce": "D9", "csn": "D10" } } }, "payloads": { "reading": { "count": "uint8" } }, """;

    [Theory]
    [InlineData("", """ "address": "0xE7E7E7E7E7" """, "RL4005", "\"address\": \"0xC8B92EC022\"")]
    [InlineData("", """ "broadcast": true """, "RL4206", "\"broadcast\": true, \"acknowledge\": false")]
    [InlineData(""", "pipes": { "2": "0x34" } """, """ "pipe": 2 """, "RL4104", "{ \"1\": \"0xC8B92EC009\", \"2\": \"0x34\" }")]
    [InlineData(""", "air": { "rate": "2 Mbps" } """, """ "pipe": 2 """, "RL4202", "{ \"rate\": \"1 Mbps\" }")]
    public void Json_stays_json(string hub, string link, string rule, string expected)
    {
        var more = rule == "RL4206" ? """ "shed": { "board": "esp32", "pins": { "ce": "GPIO27", "csn": "GPIO5" } }, """ : "";
        var ends = rule == "RL4206" ? """ "from": "far", "to": ["hub", "shed"] """ : """ "from": "far", "to": "hub" """;
        var text = $$"""{{Head}} "hub": { "board": "esp32", "pins": { "ce": "GPIO27", "csn": "GPIO5" } {{hub}} }, {{more}} {{Far}} "links": [ { {{ends}}, "payload": "reading", {{link}} } ] }""";
        var finding = Check(text).Single(one => one.Rule.Id == rule);
        var mended = Apply(text, Assert.Single(finding.Fixes));
        Assert.Contains(expected, mended, StringComparison.Ordinal);
        Assert.DoesNotContain(Check(mended), one => one.Severity is Severity.Error && one.Rule.Id.StartsWith("RL80", StringComparison.Ordinal));
        Assert.DoesNotContain(Check(mended), one => one.Rule.Id == rule);
    }

    // RFC 8259, as the runtime's own reader takes it.
    [Fact]
    public void Every_edit_of_a_json_fixture_leaves_it_json()
    {
        var edited = 0;
        foreach (var file in Fixtures.All().Where(file => file.EndsWith(".json", StringComparison.Ordinal)))
        {
            var text = File.ReadAllText(Path.Combine(Fixtures.Rules, file));
            foreach (var fix in Linter.Check(new SourceText(file, text), Fixtures.Options(file[..6], file)).Findings.SelectMany(finding => finding.Fixes))
            {
                using var mended = JsonDocument.Parse(Apply(text, fix), new() { AllowDuplicateProperties = true });
                Assert.Equal(JsonValueKind.Object, mended.RootElement.ValueKind);
                edited++;
            }
        }
        Assert.True(edited > 2, "edits");
    }

    private static System.Collections.Immutable.ImmutableArray<Finding> Check(string text) => Linter.Check(new SourceText("fix.radio.yaml", text)).Findings;

    private static string Apply(string text, Fix fix)
    {
        foreach (var edit in fix.Edits.OrderByDescending(edit => edit.Place.Start))
            text = text[..edit.Place.Start] + edit.NewText + text[edit.Place.End..];
        return text;
    }
}
