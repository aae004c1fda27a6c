using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Cli.Checking;

/// <summary>
/// Findings that were there when somebody began to use RadioLint on a network that works: only new ones fail. A JSON file that the user commits; rule and
/// message are for people, `name` decides.
/// </summary>
internal sealed class Baseline
{
    public const int Format = 1;
    private const int Deepest = 8;

    private static readonly JsonWriterOptions Layout = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly SourceText source;
    private readonly List<Entry> entries;
    private readonly HashSet<string> names;

    private Baseline(SourceText source, IEnumerable<Entry> entries)
    {
        this.source = source;
        this.entries = [.. entries];
        names = this.entries.Select(entry => entry.Name).ToHashSet(StringComparer.Ordinal);
    }

    private readonly record struct Entry(string Name, string Rule, string File);

    /// <summary>Reads a baseline.</summary>
    /// <param name="path">The full path.</param>
    /// <param name="shown">How messages call it.</param>
    public static Baseline Read(string path, string shown)
    {
        try
        {
            var text = Encoding.UTF8.GetString(BoundedReader.ReadFile(path)).TrimStart('\uFEFF');
            using var json = JsonDocument.Parse(text, new() { MaxDepth = Deepest });
            if (json.RootElement.GetProperty("format").GetInt32() is not Format and var format)
                throw new CannotWorkException(FormattableString.Invariant($"the baseline `{shown}` has format {format}, and only {Format} is known"));
            return new(new(shown, text), json.RootElement.GetProperty("known").EnumerateArray().Select(one => new Entry(one.GetProperty("name").GetString() ?? "", Said(one, "rule"), Said(one, "file"))));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot read the baseline `{shown}`: {Trouble.Words(fault)}", "write it with `--adopt`");
        }
        catch (Exception fault) when (fault is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            // What the JSON reader throws for a text that is none, a missing key and another kind of value.
            throw new CannotWorkException($"`{shown}` is no baseline", "write it anew with `--adopt`");
        }
    }

    /// <summary>Tells the findings that it knows from those that are new, and adds what it knows and is found no more.</summary>
    /// <param name="judged">Names of the files in which something could have been found.</param>
    /// <param name="severities">By rule ID, from the command line.</param>
    public CheckOutcome Apply(CheckOutcome outcome, IEnumerable<string> judged, ImmutableDictionary<string, Severity> severities)
    {
        var fresh = ImmutableArray.CreateBuilder<Finding>();
        var known = ImmutableArray.CreateBuilder<Finding>();
        foreach (var finding in outcome.Findings)
        {
            // What keeps a file from being read as meant is never old news.
            if (!finding.Rule.IsFixed && names.Contains(outcome.NameOf(finding)))
                known.Add(finding);
            else
                fresh.Add(finding);
        }
        var weight = severities.GetValueOrDefault(BaselineEntryGone.Rule.Id, BaselineEntryGone.Rule.Severity);
        if (weight is not Severity.Silent)
            fresh.AddRange(Gone(outcome, judged).Select(finding => finding with { Severity = weight }));
        return outcome with { Findings = fresh.ToImmutable(), Known = outcome.Known.AddRange(known) };
    }

    // Only about files that were looked at now; like the names, by their own name without the folder.
    private IEnumerable<Finding> Gone(CheckOutcome outcome, IEnumerable<string> judged)
    {
        var found = outcome.Findings.Concat(outcome.Known).Select(outcome.NameOf).ToHashSet(StringComparer.Ordinal);
        var files = judged.Select(NameOnly).ToHashSet(StringComparer.Ordinal);
        var at = 0;
        foreach (var entry in entries)
        {
            // Entries stand in the file's order, so each is looked for behind the one before.
            var place = source.Text.IndexOf($"\"{entry.Name}\"", at, StringComparison.Ordinal);
            at = place < 0 ? at : place;
            if (!found.Contains(entry.Name) && files.Contains(NameOnly(entry.File)))
                yield return BaselineEntryGone.At(place < 0 ? new(source, 0, 1) : new(source, place, entry.Name.Length + 2), entry.Rule, entry.File);
        }
    }

    private static string NameOnly(string file) => file[(file.LastIndexOf('/') + 1)..];

    private static string Said(JsonElement entry, string key) => entry.TryGetProperty(key, out var value) ? value.GetString() ?? "" : "";

    /// <summary>A baseline of all findings that may stand in one.</summary>
    public static byte[] Write(CheckOutcome outcome)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Layout))
        {
            json.WriteStartObject();
            json.WriteNumber("format", Format);
            json.WriteStartArray("known");
            foreach (var finding in outcome.Findings.Where(finding => !finding.Rule.IsFixed))
            {
                json.WriteStartObject();
                json.WriteString("name", outcome.NameOf(finding));
                json.WriteString("rule", finding.Rule.Id);
                json.WriteString("file", finding.Place.Source.Name);
                json.WriteString("message", finding.Message);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        bytes.WriteByte((byte)'\n');
        return bytes.ToArray();
    }
}
