using System.Globalization;
using System.Text.Json;
using RadioLint.Cli.Output;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>For programs; docs/json-output.md describes it. Shares are millionths and times seconds, so that no figure is rounded twice.</summary>
internal static class SurveyJson
{
    public static void Write(Stream output, SurveyOutcome outcome)
    {
        using (var json = new Utf8JsonWriter(output, JsonReport.Options))
        {
            json.WriteStartObject();
            json.WriteNumber("version", JsonReport.Version);
            json.WriteString("radiolint", ProductVersion.Text);
            json.WriteStartArray("logs");
            foreach (var log in outcome.Logs)
                Write(json, log);
            json.WriteEndArray();
            json.WriteStartArray("networks");
            foreach (var one in outcome.Networks)
                Write(json, one);
            json.WriteEndArray();
            JsonReport.WriteFindings(json, outcome.Findings);
            json.WriteEndObject();
        }
        output.WriteByte((byte)'\n');
    }

    private static void Write(Utf8JsonWriter json, HeardLog heard)
    {
        var log = heard.Log;
        json.WriteStartObject();
        json.WriteString("file", log.Name);
        json.WriteString("form", log.Form switch { SurveyForm.Reports => "reports", SurveyForm.Counts => "counts", SurveyForm.Levels => "levels", _ => "none" });
        json.WriteNumber("lines", log.Lines);
        json.WriteNumber("sweeps", log.Sweeps);
        json.WriteNumber("broken", log.Broken);
        if (log.FirstBroken is var (place, fault))
        {
            json.WriteNumber("firstBrokenLine", place.From.Line);
            json.WriteNumber("firstBrokenColumn", place.From.Column);
            json.WriteString("firstBrokenFault", fault);
        }
        json.WriteNumber("tooLong", log.TooLong);
        json.WriteNumber("passedOver", log.PassedOver);
        json.WriteNumber("outside", log.Outside);
        json.WriteBoolean("endsOpen", log.EndsOpen);
        json.WriteBoolean("isCut", log.IsCut);
        json.WriteStartArray("places");
        foreach (var name in log.Places)
            json.WriteStringValue(name);
        json.WriteEndArray();
        if (heard.Begun is { } begun)
            json.WriteString("begun", begun.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture));
        Write(json, "lastedSeconds", heard.Lasted);
        if (heard.Dwell is { } dwell)
            json.WriteNumber("dwellMicroseconds", dwell.Time.Microseconds);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SurveyedNetwork one)
    {
        var ranking = one.Ranking;
        json.WriteStartObject();
        json.WriteString("network", one.Name);
        json.WriteString("file", one.File.Name);
        json.WriteString("says", SurveyWords.Verdict(one));
        if (ranking.Planned is { } planned)
            json.WriteNumber("planned", planned);
        if (one.Channel is { } best)
            json.WriteNumber("best", best);
        Write(json, "lastedSeconds", ranking.Lasted);
        Write(json, "moreSeconds", ranking.MoreTime);
        json.WriteStartArray("channels");
        foreach (var channel in ranking.Channels)
            Write(json, channel);
        json.WriteEndArray();
        json.WriteStartArray("systems");
        foreach (var system in ranking.Systems)
        {
            json.WriteStartObject();
            json.WriteString("kind", SystemNames.Word(system.Kind));
            json.WriteNumber("channel", system.Channel);
            if (system.Partner is { } partner)
                json.WriteNumber("partner", partner);
            json.WriteNumber("fromHertz", system.Occupied.Low.Hertz);
            json.WriteNumber("toHertz", system.Occupied.High.Hertz);
            json.WriteBoolean("declared", system.IsDeclared);
            json.WriteBoolean("heard", system.IsHeard);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("blind");
        foreach (var zone in ranking.Blind)
            Write(json, zone);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, RankedChannel channel)
    {
        json.WriteStartObject();
        json.WriteNumber("channel", channel.Channel);
        json.WriteNumber("hertz", channel.Carrier.Hertz);
        if (channel.Rank is { } rank)
            json.WriteNumber("rank", rank);
        if (channel.WhyOut is { } why)
            json.WriteString("out", why);
        json.WriteNumber("samples", channel.Samples);
        if (channel.Samples > 0)
        {
            json.WriteNumber("busyPpm", channel.Busy.Millionths);
            json.WriteNumber("lowPpm", channel.Interval.Low.Millionths);
            json.WriteNumber("highPpm", channel.Interval.High.Millionths);
        }
        json.WriteStartArray("reasons");
        foreach (var reason in channel.Reasons)
            json.WriteStringValue(reason);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, BlindZone zone)
    {
        json.WriteStartObject();
        json.WriteString("from", zone.Hop.Sender.Label);
        json.WriteString("to", zone.Hop.Receiver.Label);
        Write(json, "thresholdDbm", zone.Threshold);
        if (zone.Planned is { } level)
            Write(json, "plannedDbm", level);
        if (zone.LeastHarmful is { } harmful)
            Write(json, "leastHarmfulDbm", harmful);
        json.WriteString("says", SurveyWords.Blind(zone));
        json.WriteEndObject();
    }

    // Hundredths as a decimal: exact, and written the same everywhere.
    private static void Write(Utf8JsonWriter json, string name, PowerLevel level) => json.WriteNumber(name, new decimal(level.Centi) / 100m);

    private static void Write(Utf8JsonWriter json, string name, Duration? time)
    {
        if (time is { } known)
            json.WriteNumber(name, known.Nanoseconds / 1_000_000_000);
    }
}
