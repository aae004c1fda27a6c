using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using RadioLint.Cli.Checking;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Cli.Output;

/// <summary>Findings for programs; docs/json-output.md describes it. Written member by member, in that order.</summary>
internal static class JsonReport
{
    /// <summary>Raised when a member changes its meaning or goes; new members do not raise it.</summary>
    public const int Version = 1;

    /// <summary>Layout of every JSON that the program writes.</summary>
    public static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        // The default turns every quote and backtick of a message into an escape, for the sake of web pages.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static void Write(Stream output, CheckOutcome outcome)
    {
        using (var json = new Utf8JsonWriter(output, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("version", Version);
            json.WriteString("radiolint", ProductVersion.Text);
            WriteExtent(json, outcome);
            json.WriteStartArray("findings");
            foreach (var finding in outcome.Findings)
                Write(json, finding, outcome.NameOf(finding));
            json.WriteEndArray();
            json.WriteStartArray("unread");
            foreach (var (file, reason) in outcome.Unread)
            {
                json.WriteStartObject();
                json.WriteString("file", file);
                json.WriteString("reason", reason);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        output.WriteByte((byte)'\n');
    }

    private static void WriteExtent(Utf8JsonWriter json, CheckOutcome outcome)
    {
        json.WriteStartObject("checked");
        json.WriteNumber("networks", outcome.Extent.Networks);
        json.WriteNumber("nodes", outcome.Extent.Nodes);
        json.WriteNumber("links", outcome.Extent.Links);
        json.WriteNumber("rules", outcome.Extent.Rules);
        json.WriteNumber("unreadable", outcome.Unreadable);
        json.WriteNumber("known", outcome.Known.Length);
        json.WriteEndObject();
    }

    /// <summary>The member `findings`, each with the name that it keeps among these.</summary>
    public static void WriteFindings(Utf8JsonWriter json, ImmutableArray<Finding> findings)
    {
        json.WriteStartArray("findings");
        foreach (var (finding, name) in FindingNames.Of(findings))
            Write(json, finding, name);
        json.WriteEndArray();
    }

    /// <summary>One finding.</summary>
    /// <param name="name">What it keeps from run to run.</param>
    public static void Write(Utf8JsonWriter json, Finding finding, string name)
    {
        json.WriteStartObject();
        json.WriteString("rule", finding.Rule.Id);
        json.WriteString("name", name);
        json.WriteString("severity", TextReport.Word(finding.Severity));
        Write(json, finding.Place);
        json.WriteString("message", finding.Message);
        json.WriteString("help", finding.Help);
        json.WriteStartArray("related");
        foreach (var related in finding.Related)
        {
            json.WriteStartObject();
            Write(json, related.Place);
            json.WriteString("message", related.Message);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("fixes");
        foreach (var fix in finding.Fixes)
            Write(json, fix);
        json.WriteEndArray();
        json.WriteString("docs", $"docs/rules/{finding.Rule.Id}.md");
        json.WriteString("limit", finding.Rule.Limit);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Fix fix)
    {
        json.WriteStartObject();
        json.WriteString("title", fix.Title);
        json.WriteString("grade", fix.Grade is FixGrade.Safe ? "safe" : "offered");
        json.WriteStartArray("edits");
        foreach (var edit in fix.Edits)
        {
            json.WriteStartObject();
            Write(json, edit.Place);
            json.WriteString("text", edit.NewText);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The members of a place, into an object that is open.</summary>
    public static void Write(Utf8JsonWriter json, Place place)
    {
        var (from, to) = (place.From, place.To);
        json.WriteString("file", place.Source.Name);
        json.WriteNumber("line", from.Line);
        json.WriteNumber("column", from.Column);
        json.WriteNumber("endLine", to.Line);
        json.WriteNumber("endColumn", to.Column);
    }
}
