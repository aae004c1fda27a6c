using System.Text.Encodings.Web;
using System.Text.Json;
using RadioLint.Cli.Checking;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Text;

namespace RadioLint.Cli.Output;

/// <summary>Findings as SARIF 2.1.0 (OASIS Standard, 27 March 2020), for services that show them beside the code.</summary>
internal static class SarifReport
{
    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Write(Stream output, CheckOutcome outcome)
    {
        var rules = outcome.Findings.Concat(outcome.Known).Select(finding => finding.Rule).DistinctBy(rule => rule.Id).OrderBy(rule => rule.Id, StringComparer.Ordinal).ToList();
        using (var json = new Utf8JsonWriter(output, Options))
        {
            json.WriteStartObject();
            json.WriteString("$schema", Schema);
            json.WriteString("version", "2.1.0");
            json.WriteStartArray("runs");
            json.WriteStartObject();
            WriteTool(json, rules);
            WriteInvocation(json, outcome);
            json.WriteString("columnKind", "utf16CodeUnits");
            json.WriteStartArray("results");
            foreach (var finding in outcome.Findings)
                Write(json, finding, outcome.NameOf(finding), rules, isKnown: false);
            foreach (var finding in outcome.Known)
                Write(json, finding, outcome.NameOf(finding), rules, isKnown: true);
            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndArray();
            json.WriteEndObject();
        }
        output.WriteByte((byte)'\n');
    }

    private static void WriteTool(Utf8JsonWriter json, List<Descriptor> rules)
    {
        json.WriteStartObject("tool");
        json.WriteStartObject("driver");
        json.WriteString("name", "RadioLint");
        json.WriteString("version", ProductVersion.Text);
        json.WriteString("semanticVersion", ProductVersion.Text);
        json.WriteStartArray("rules");
        foreach (var rule in rules)
        {
            json.WriteStartObject();
            json.WriteString("id", rule.Id);
            WriteText(json, "shortDescription", rule.Title);
            WriteText(json, "fullDescription", $"{rule.Title}. Limit: {rule.Limit}.");
            WriteText(json, "help", $"`radiolint explain {rule.Id}` tells why it hurts and what to do.");
            json.WriteStartObject("defaultConfiguration");
            json.WriteString("level", Level(rule.Severity));
            json.WriteEndObject();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteInvocation(Utf8JsonWriter json, CheckOutcome outcome)
    {
        json.WriteStartArray("invocations");
        json.WriteStartObject();
        json.WriteBoolean("executionSuccessful", outcome.Unread.IsEmpty);
        if (!outcome.Unread.IsEmpty)
        {
            json.WriteStartArray("toolExecutionNotifications");
            foreach (var (file, reason) in outcome.Unread)
            {
                json.WriteStartObject();
                json.WriteString("level", "error");
                WriteText(json, "message", $"cannot read `{file}`: {reason}");
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        json.WriteEndObject();
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Finding finding, string name, List<Descriptor> rules, bool isKnown)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", finding.Rule.Id);
        json.WriteNumber("ruleIndex", rules.FindIndex(rule => rule.Id == finding.Rule.Id));
        json.WriteString("level", Level(finding.Severity));
        WriteText(json, "message", $"{finding.Message}; {finding.Help}");
        json.WriteStartArray("locations");
        WriteLocation(json, finding.Place, null, null);
        json.WriteEndArray();
        if (!finding.Related.IsEmpty)
        {
            json.WriteStartArray("relatedLocations");
            for (var i = 0; i < finding.Related.Length; i++)
                WriteLocation(json, finding.Related[i].Place, i + 1, finding.Related[i].Message);
            json.WriteEndArray();
        }
        json.WriteStartObject("partialFingerprints");
        json.WriteString("radiolint/v1", name);
        json.WriteEndObject();
        json.WriteString("baselineState", isKnown ? "unchanged" : "new");
        if (!finding.Fixes.IsEmpty)
        {
            json.WriteStartArray("fixes");
            foreach (var fix in finding.Fixes)
                Write(json, fix);
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Fix fix)
    {
        json.WriteStartObject();
        WriteText(json, "description", fix.Title);
        json.WriteStartArray("artifactChanges");
        foreach (var file in fix.Edits.GroupBy(edit => edit.Place.Source.Name, StringComparer.Ordinal))
        {
            json.WriteStartObject();
            WriteArtifact(json, file.Key);
            json.WriteStartArray("replacements");
            foreach (var edit in file)
            {
                json.WriteStartObject();
                WriteRegion(json, "deletedRegion", edit.Place);
                WriteText(json, "insertedContent", edit.NewText);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteLocation(Utf8JsonWriter json, Place place, int? number, string? message)
    {
        json.WriteStartObject();
        if (number is { } id)
            json.WriteNumber("id", id);
        json.WriteStartObject("physicalLocation");
        WriteArtifact(json, place.Source.Name);
        WriteRegion(json, "region", place);
        json.WriteEndObject();
        if (message is not null)
            WriteText(json, "message", message);
        json.WriteEndObject();
    }

    // A name may hold anything; in a URI much of it is written with %.
    private static void WriteArtifact(Utf8JsonWriter json, string name)
    {
        json.WriteStartObject("artifactLocation");
        json.WriteString("uri", string.Join("/", name.Split('/').Select(Uri.EscapeDataString)));
        json.WriteEndObject();
    }

    private static void WriteRegion(Utf8JsonWriter json, string key, Place place)
    {
        var (from, to) = (place.From, place.To);
        json.WriteStartObject(key);
        json.WriteNumber("startLine", from.Line);
        json.WriteNumber("startColumn", from.Column);
        json.WriteNumber("endLine", to.Line);
        json.WriteNumber("endColumn", to.Column);
        json.WriteEndObject();
    }

    private static void WriteText(Utf8JsonWriter json, string key, string text)
    {
        json.WriteStartObject(key);
        json.WriteString("text", text);
        json.WriteEndObject();
    }

    private static string Level(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        Severity.Info => "note",
        _ => "none",
    };
}
