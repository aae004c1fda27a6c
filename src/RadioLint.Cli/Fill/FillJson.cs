using System.Text.Json;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Findings;
using RadioLint.Planning;

namespace RadioLint.Cli.Fill;

/// <summary>The outcome for programs; docs/fill.md describes it. Written member by member, in that order.</summary>
internal static class FillJson
{
    /// <summary>Raised when a member changes its meaning or goes; new members do not raise it.</summary>
    public const int Version = 1;

    /// <summary>For a manifest that cannot be read as meant: the findings in the form of `check`.</summary>
    public static void Write(Stream output, ManifestFile file, IEnumerable<Finding> faults) => Document(output, file, "unreadable", json =>
        JsonReport.WriteFindings(json, [.. faults]));

    public static void Write(Stream output, FillOutcome outcome)
    {
        Document(output, outcome.File, outcome.IsImpossible ? "impossible" : outcome.IsPartial ? "partial" : outcome.IsChanged ? "filled" : "nothing open", json =>
        {
            json.WriteNumber("cost", outcome.Plan.Cost);
            json.WriteNumber("bound", outcome.Plan.Bound);
            Each(json, "choices", outcome.Written.Made, choice => WriteChoice(json, choice));
            Each(json, "follows", outcome.Plan.Derived, choice => WriteChoice(json, choice));
            Each(json, "left", outcome.Written.Left, one =>
            {
                WriteChoice(json, one.Choice);
                json.WriteString("why", one.Why);
            });
            Texts(json, "missing", outcome.Missing);
            Texts(json, "kept", outcome.Plan.Kept);
            Each(json, "fixed", outcome.Plan.Fixed, value =>
            {
                WriteTarget(json, value.Target, value.Key, value.Value);
                JsonReport.Write(json, value.Place);
                json.WriteNumber("cost", value.Cost);
                json.WriteNumber("ifFree", value.IfFree);
                json.WriteString("better", value.Better);
            });
            Each(json, "conflict", outcome.Plan.Conflict, demand =>
            {
                JsonReport.Write(json, demand.Place);
                json.WriteString("demand", demand.Words);
            });
            Each(json, "edits", outcome.Written.Edits, edit =>
            {
                JsonReport.Write(json, edit.Place);
                json.WriteString("text", edit.NewText);
            });
            Each(json, "new", outcome.New, finding =>
            {
                json.WriteString("rule", finding.Rule.Id);
                json.WriteString("severity", TextReport.Word(finding.Severity));
                JsonReport.Write(json, finding.Place);
                json.WriteString("message", finding.Message);
            });
        });
    }

    private static void Document(Stream output, ManifestFile file, string word, Action<Utf8JsonWriter> write)
    {
        using (var json = new Utf8JsonWriter(output, JsonReport.Options))
        {
            json.WriteStartObject();
            json.WriteNumber("version", Version);
            json.WriteString("radiolint", ProductVersion.Text);
            json.WriteString("file", file.Name);
            json.WriteString("outcome", word);
            write(json);
            json.WriteEndObject();
        }
        output.WriteByte((byte)'\n');
    }

    private static void Each<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Texts(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
            json.WriteStringValue(text);
        json.WriteEndArray();
    }

    private static void WriteChoice(Utf8JsonWriter json, Choice choice)
    {
        WriteTarget(json, choice.Target, choice.Key, choice.Value);
        json.WriteString("reason", choice.Reason);
    }

    private static void WriteTarget(Utf8JsonWriter json, object? target, string key, string value)
    {
        var (kind, name) = FillWords.Name(target);
        json.WriteString("of", kind);
        json.WriteString("name", name);
        json.WriteString("key", key);
        json.WriteString("value", value);
    }
}
