using System.Text.Json;
using RadioLint.Cli.Output;
using RadioLint.Readback;

namespace RadioLint.Cli.Readback;

/// <summary>For programs; docs/readback.md describes it. Findings are those of `check --format json`.</summary>
internal static class ReadbackJson
{
    public static void Write(Stream output, ReadbackOutcome outcome)
    {
        using (var json = new Utf8JsonWriter(output, JsonReport.Options))
        {
            json.WriteStartObject();
            json.WriteNumber("version", JsonReport.Version);
            json.WriteString("radiolint", ProductVersion.Text);
            WriteLog(json, outcome);
            json.WriteStartArray("nodes");
            foreach (var node in outcome.Judgement.Nodes)
                Write(json, node);
            json.WriteEndArray();
            JsonReport.WriteFindings(json, outcome.Findings);
            json.WriteEndObject();
        }
        output.WriteByte((byte)'\n');
    }

    private static void WriteLog(Utf8JsonWriter json, ReadbackOutcome outcome)
    {
        var log = outcome.Log;
        json.WriteStartObject("log");
        json.WriteString("file", log.Name);
        json.WriteNumber("lines", log.Lines);
        json.WriteNumber("listings", outcome.Listings);
        json.WriteNumber("packets", log.Packets);
        json.WriteNumber("garbled", log.Garbled);
        if (log.FirstGarbled is var (place, fault))
        {
            json.WriteNumber("firstGarbledLine", place.From.Line);
            json.WriteString("firstGarbledFault", fault);
        }
        json.WriteNumber("tooLong", log.TooLong);
        json.WriteNumber("passedOver", log.PassedOver);
        json.WriteBoolean("isCut", log.IsCut);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, JudgedNode node)
    {
        json.WriteStartObject();
        json.WriteString("node", node.Name);
        json.WriteString("verdict", VerdictWords.Word(node.Verdict));
        json.WriteString("says", VerdictWords.Sentence(node));
        if (node.Seen.Boot is { } boot)
        {
            json.WriteString("fingerprint", boot.Fingerprint);
            json.WriteString("digest", boot.Digest);
        }
        json.WriteNumber("listings", node.Seen.ListingCount);
        json.WriteNumber("registers", node.Judged?.Count ?? 0);
        json.WriteNumber("compared", node.Compared);
        json.WriteNumber("different", node.Different);
        if (node.Order is { } order)
            json.WriteString("addressOrder", order is AddressOrder.Air ? "air" : "spi");
        json.WriteStartArray("live");
        foreach (var (register, says) in node.Live)
        {
            json.WriteStartObject();
            json.WriteString("register", register.Name);
            json.WriteNumber("value", register.Value);
            json.WriteString("says", says);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
