using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6205: a time stamp of 32 bits that starts over while its node is still meant to run.</summary>
public sealed class TimeStampWraps() : Rule(new(
    "RL6205", Severity.Warning, "Time stamp starts over within the node's run",
    "2^32 ms = 49.7 days, 2^31 ms = 24.9 days, 2^32 us = 71.6 min (arithmetic); a node without `runs-for` runs without end", "0.1"))
{
    // What people call a time since start. A length of time, such as `interval`, has a bound of its own.
    private static readonly string[] Words = ["time", "uptime", "timestamp", "stamp", "clock", "millis", "micros", "ticks", "taken", "since", "at"];

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            foreach (var field in payload.Fields.Where(IsTimeStamp))
            {
                var wraps = WrapsAfter(field);
                if (network.HopsOf(payload).Select(hop => hop.Sender).FirstOrDefault(node => RunsLonger(node, wraps)) is not { } node)
                    continue;
                var run = node.RunsFor is { } stated ? $"is to run for {Shown(stated.Value)}" : "runs without end";
                yield return At(
                    node, field.TypePlace,
                    $"`{field.Name}` of `{payload.Name}` starts over after {Shown(wraps)}, and `{node.Label}` {run}",
                    $"send seconds, or let receivers take differences of the same width alone, which stay right over one turn",
                    InSeconds(field) is { } place && !node.IsExternal ? [Offer("Send seconds", place, "s")] : []) with
                { Related = node.RunsFor is { } runs ? See(runs.Place, $"how long it is to run is here") : ImmutableArray<RelatedPlace>.Empty };
            }
        }
    }

    // A declared range says that the values have a bound.
    private static bool IsTimeStamp(Field field) =>
        field is { Kind: FieldKind.Integer, ItemSize: 4, Unit: "ms" or "us", Range: null, Constant: null, Scale: > 0 and < 1_000_000 }
        && field.Name.Split('-', '_').Any(word => Words.Contains(word, StringComparer.OrdinalIgnoreCase));

    private static Duration WrapsAfter(Field field) =>
        new((long)decimal.Truncate(field.Scale * (field.IsSigned ? 1L << 31 : 1L << 32) * (field.Unit == "ms" ? 1_000_000 : 1_000) is var time && time < long.MaxValue ? time : long.MaxValue));

    private static bool RunsLonger(Node node, Duration wraps) => node.RunsFor is { } stated ? stated.Value > wraps : !node.Writes("runs-for");

    private static string Shown(Duration time) => (time.Nanoseconds / 1_000_000_000m) switch
    {
        >= 2 * 86_400 and var seconds => FormattableString.Invariant($"{seconds / 86_400:0.#} days"),
        >= 2 * 3_600 and var seconds => FormattableString.Invariant($"{seconds / 3_600:0.#} h"),
        var seconds => FormattableString.Invariant($"{seconds / 60:0.#} min"),
    };

    // Only where whole ms are counted: then the unit alone has to change.
    private static Place? InSeconds(Field field)
    {
        var text = field.ValuePlace.Text;
        var at = text.IndexOf(" ms", StringComparison.Ordinal) + 1;
        return at > 0 && field.Scale == 1 && (at + 2 == text.Length || text[at + 2] is ' ' or '"' or '\'') ? new(field.ValuePlace.Source, field.ValuePlace.Start + at, 2) : null;
    }
}
