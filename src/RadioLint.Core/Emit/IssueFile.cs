using System.Collections.Immutable;
using System.Text;
using System.Text.Json;

namespace RadioLint.Emit;

/// <summary>The record's JSON, both ways. Without reflection, keys in a fixed order, two blanks of indentation, LF.</summary>
public static class IssueFile
{
    private const int Deepest = 16;

    private static readonly JsonWriterOptions Layout = new() { Indented = true, IndentSize = 2, NewLine = "\n" };

    /// <summary>The record's name beside a manifest: `apiary.radio.yaml` gives `apiary.radio.issued.json`.</summary>
    public static string NameFor(string manifest)
    {
        foreach (var ending in new[] { ".radio.yaml", ".radio.yml", ".radio.json", ".yaml", ".yml", ".json" })
        {
            if (manifest.EndsWith(ending, StringComparison.OrdinalIgnoreCase) && manifest.Length > ending.Length)
                return manifest[..^ending.Length] + ".radio.issued.json";
        }
        return manifest + ".radio.issued.json";
    }

    public static string Write(Issue issue)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Layout))
        {
            json.WriteStartObject();
            json.WriteNumber("format", Issue.Format);
            json.WriteString("network", issue.Network);
            WriteState(json, "now", issue.Now);
            if (issue.Before is { } before)
                WriteState(json, "before", before);
            json.WriteStartObject("left-over");
            foreach (var (name, hash) in issue.LeftOver)
                json.WriteString(name, hash);
            json.WriteEndObject();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
    }

    /// <summary>The record, or null and what is wrong with the text.</summary>
    public static (Issue? Issue, string? Fault) Read(string text)
    {
        try
        {
            using var json = JsonDocument.Parse(text, new() { MaxDepth = Deepest });
            var root = json.RootElement;
            if (root.GetProperty("format").GetInt32() is not Issue.Format and var format)
                return (null, FormattableString.Invariant($"the record has format {format}, and only {Issue.Format} is known"));
            return (new(
                Text(root, "network"), ReadState(root.GetProperty("now")),
                root.TryGetProperty("before", out var before) ? ReadState(before) : null,
                Hashes(root.GetProperty("left-over"))), null);
        }
        catch (JsonException)
        {
            return (null, "the record is no JSON");
        }
        catch (Exception fault) when (fault is KeyNotFoundException or InvalidOperationException or FormatException)
        {
            // What JsonElement throws for a missing key, another kind of value, and a number out of range.
            return (null, "the record lacks a part, or has it in another form");
        }
    }

    private static void WriteState(Utf8JsonWriter json, string name, IssuedState state)
    {
        json.WriteStartObject(name);
        json.WriteString("contract", state.ContractHash);
        json.WriteStartObject("files");
        foreach (var (file, hash) in state.Others)
            json.WriteString(file, hash);
        json.WriteEndObject();
        json.WriteStartObject("nodes");
        foreach (var node in state.Nodes)
        {
            json.WriteStartObject(node.Name);
            json.WriteString("digest", node.Digest);
            json.WriteString("fingerprint", node.Fingerprint);
            json.WriteString("file", node.File);
            json.WriteString("hash", node.FileHash);
            json.WriteStartArray("frames");
            foreach (var frame in node.Frames)
                json.WriteStringValue(frame);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteStartObject("payloads");
        foreach (var payload in state.Payloads)
        {
            json.WriteStartObject(payload.Name);
            json.WriteString("layout", payload.Layout);
            if (payload.Version is { } version)
                json.WriteString("version", version);
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static IssuedState ReadState(JsonElement state) => new(
        [
            .. state.GetProperty("nodes").EnumerateObject().Select(node => new IssuedNode(
                node.Name, Text(node.Value, "digest"), Text(node.Value, "fingerprint"),
                [.. node.Value.GetProperty("frames").EnumerateArray().Select(frame => frame.GetString() ?? "")],
                Text(node.Value, "file"), Text(node.Value, "hash"))),
        ],
        [
            .. state.GetProperty("payloads").EnumerateObject().Select(payload => new IssuedPayload(
                payload.Name, Text(payload.Value, "layout"), payload.Value.TryGetProperty("version", out var version) ? version.GetString() : null)),
        ],
        Text(state, "contract"))
    {
        // Records of before the link layer have none.
        Others = state.TryGetProperty("files", out var files) ? Hashes(files) : [],
    };

    private static ImmutableArray<(string Name, string Hash)> Hashes(JsonElement files) =>
        [.. files.EnumerateObject().Select(file => (file.Name, file.Value.GetString() ?? ""))];

    private static string Text(JsonElement element, string key) => element.GetProperty(key).GetString() ?? "";
}
