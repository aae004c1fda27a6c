using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;

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

    private readonly HashSet<string> names;

    private Baseline(IEnumerable<string> names) => this.names = new(names, StringComparer.Ordinal);

    /// <summary>Reads a baseline.</summary>
    /// <param name="path">The full path.</param>
    /// <param name="shown">How messages call it.</param>
    public static Baseline Read(string path, string shown)
    {
        try
        {
            using var json = JsonDocument.Parse(BoundedReader.ReadFile(path), new() { MaxDepth = Deepest });
            if (json.RootElement.GetProperty("format").GetInt32() is not Format and var format)
                throw new CannotWorkException(FormattableString.Invariant($"the baseline `{shown}` has format {format}, and only {Format} is known"));
            return new(json.RootElement.GetProperty("known").EnumerateArray().Select(one => one.GetProperty("name").GetString() ?? ""));
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

    /// <summary>Tells the findings that it knows from those that are new.</summary>
    public CheckOutcome Apply(CheckOutcome outcome)
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
        return outcome with { Findings = fresh.ToImmutable(), Known = outcome.Known.AddRange(known) };
    }

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
