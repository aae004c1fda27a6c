using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using RadioLint.Manifest.Keys;

namespace RadioLint.Manifest;

/// <summary>The JSON Schema (2020-12) of a manifest, for completion in editors; written from the tables that the reader itself uses.</summary>
public static class JsonSchema
{
    private const string Notes = "^x-";

    // Their absence has a finding of its own each, so the tables do not require them.
    private static readonly Key[] RequiredAtTop = [RootKeys.Format, RootKeys.Network, RootKeys.Nodes];

    private static readonly JsonWriterOptions Layout = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, // it goes into a file, never into a page
    };

    /// <summary>The schema as text; the same bytes each time.</summary>
    public static string Text() => Of(
        RootKeys.Shape, "Manifest of a small network of 2.4 GHz packet radios", "Format 1. Keys that begin with `x-` are free for notes.", RequiredAtTop);

    /// <summary>The schema of files that another table reads, such as the shipped profiles.</summary>
    internal static string Of(IMapShape root) => Of(root, root.What, "Every figure with its unit, its source and how it is known.", Required(root));

    private static string Of(IMapShape root, string title, string description, Key[] required)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, Layout))
        {
            writer.WriteStartObject();
            writer.WriteString("$schema", "https://json-schema.org/draft/2020-12/schema");
            writer.WriteString("title", title);
            writer.WriteString("description", description);
            var shared = SharedMaps.Of(new SchemaForm.Map(root));
            WriteMap(writer, root, required, shared);
            WriteShared(writer, shared);
            writer.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static void WriteShared(Utf8JsonWriter writer, SharedMaps shared)
    {
        writer.WriteStartObject("$defs");
        foreach (var (shape, name) in shared.Names)
        {
            writer.WriteStartObject(name);
            WriteMap(writer, shape, Required(shape), shared);
            writer.WriteEndObject();
        }
        writer.WriteEndObject();
    }

    private static Key[] Required(IMapShape shape) => [.. shape.Keys.Where(key => key.IsRequired)];

    private static void WriteMap(Utf8JsonWriter writer, IMapShape shape, Key[] required, SharedMaps shared)
    {
        writer.WriteString("type", "object");
        if (required.Length > 0)
            WriteTexts(writer, "required", required.Select(key => key.Name));
        writer.WriteStartObject("properties");
        foreach (var key in shape.Keys)
        {
            writer.WriteStartObject(key.Name);
            writer.WriteString("description", key.Summary);
            if (key.Default is { } text)
                WriteDefault(writer, key.Shape.Form, text);
            WriteForm(writer, key.Shape.Form, shared);
            writer.WriteEndObject();
        }
        writer.WriteEndObject();
        CloseMap(writer);
    }

    // A default in the type that the key has: 15 and true, not their texts.
    private static void WriteDefault(Utf8JsonWriter writer, SchemaForm form, string text)
    {
        var forms = Choices(form).ToList();
        if (forms.Exists(choice => choice is SchemaForm.Truth) && text is "true" or "false")
            writer.WriteBoolean("default", text == "true");
        else if (forms.Exists(choice => choice is SchemaForm.Whole) && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            writer.WriteNumber("default", number);
        else
            writer.WriteString("default", text);
    }

    private static void WriteForm(Utf8JsonWriter writer, SchemaForm form, SharedMaps shared)
    {
        var choices = Choices(form).Distinct().ToList();
        if (choices.Count == 1)
        {
            WriteOne(writer, choices[0], shared);
            return;
        }
        writer.WriteStartArray("anyOf");
        foreach (var choice in choices)
        {
            writer.WriteStartObject();
            WriteOne(writer, choice, shared);
            writer.WriteEndObject();
        }
        writer.WriteEndArray();
    }

    private static void WriteOne(Utf8JsonWriter writer, SchemaForm form, SharedMaps shared)
    {
        switch (form)
        {
            case SchemaForm.Scalar scalar:
                WriteScalar(writer, scalar.Pattern);
                break;
            case SchemaForm.Words words:
                WriteTexts(writer, "enum", words.Allowed);
                break;
            case SchemaForm.Truth:
                writer.WriteString("type", "boolean");
                break;
            case SchemaForm.Whole:
                writer.WriteString("type", "integer");
                break;
            case SchemaForm.Nothing:
                writer.WriteString("type", "null");
                break;
            case SchemaForm.ListOf list:
                writer.WriteString("type", "array");
                WriteNested(writer, "items", list.Item, shared);
                break;
            case SchemaForm.Named named:
                writer.WriteString("type", "object");
                WriteNotes(writer);
                WriteNested(writer, "additionalProperties", named.Value, shared);
                break;
            case SchemaForm.Map { Shape: var shape } when shared.NameOf(shape) is { } name:
                writer.WriteString("$ref", $"#/$defs/{name}");
                break;
            case SchemaForm.Map { Shape: var shape }:
                WriteMap(writer, shape, Required(shape), shared);
                break;
            case SchemaForm.Rules rules:
                WriteRules(writer, rules, shared);
                break;
        }
    }

    // Free text may look like a number to YAML. So does `0xC2A7D19B33`, where the pattern holds for the quoted form alone.
    private static void WriteScalar(Utf8JsonWriter writer, string? pattern)
    {
        if (pattern is null)
        {
            WriteTexts(writer, "type", ["string", "number", "boolean"]);
            return;
        }
        if (pattern.StartsWith("^0x", StringComparison.Ordinal))
            WriteTexts(writer, "type", ["string", "integer"]);
        else
            writer.WriteString("type", "string");
        writer.WriteString("pattern", pattern);
    }

    private static void WriteRules(Utf8JsonWriter writer, SchemaForm.Rules rules, SharedMaps shared)
    {
        writer.WriteString("type", "object");
        writer.WriteStartObject("properties");
        WriteNested(writer, "allow", OneOrMore(new SchemaForm.Map(rules.Allowance)), shared);
        WriteNested(writer, "locked", OneOrMore(new SchemaForm.Scalar("^RL[0-9]{4}$")), shared);
        writer.WriteEndObject();
        writer.WriteStartObject("patternProperties");
        writer.WriteBoolean(Notes, true);
        WriteNested(writer, "^RL[0-9]{4}$", RulesKeys.SeverityWord.Form, shared);
        writer.WriteEndObject();
        writer.WriteBoolean("additionalProperties", false);
    }

    private static void CloseMap(Utf8JsonWriter writer)
    {
        WriteNotes(writer);
        writer.WriteBoolean("additionalProperties", false);
    }

    private static void WriteNotes(Utf8JsonWriter writer)
    {
        writer.WriteStartObject("patternProperties");
        writer.WriteBoolean(Notes, true);
        writer.WriteEndObject();
    }

    private static void WriteNested(Utf8JsonWriter writer, string name, SchemaForm form, SharedMaps shared)
    {
        writer.WriteStartObject(name);
        WriteForm(writer, form, shared);
        writer.WriteEndObject();
    }

    private static void WriteTexts(Utf8JsonWriter writer, string name, IEnumerable<string> texts)
    {
        writer.WriteStartArray(name);
        foreach (var text in texts)
            writer.WriteStringValue(text);
        writer.WriteEndArray();
    }

    private static SchemaForm.AnyOf OneOrMore(SchemaForm item) => new([item, new SchemaForm.ListOf(item)]);

    private static IEnumerable<SchemaForm> Choices(SchemaForm form) => form is SchemaForm.AnyOf any ? any.Choices.SelectMany(Choices) : [form];
}
