using System.Globalization;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6201: a payload is laid out otherwise than when it was last issued, under the same version.</summary>
public sealed class LayoutWithoutNewVersion() : Rule(new(
    "RL6201", Severity.Error, "Layout changed, version did not",
    "one layout for each version (own rule); the digest of the layout and the version that `NAME.radio.issued.json` holds of the last issue and of the one before", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // A payload without a version promises nothing to nodes that are not flashed again.
        if (network.Issued is not { } issued)
            yield break;
        foreach (var payload in network.Payloads)
        {
            var states = new[] { issued.Now, issued.Before };
            var known = states.Select(state => state is not null && state.Payloads.TryGetValue(payload.Name, out var one) ? one : null).Where(one => one is { Version: not null, Layout: not null }).ToList();
            if (known.Count == 0 || !payload.HasKnownSize)
                continue;
            if (Fingerprint.VersionOf(payload) is not { } version)
            {
                if (issued.Now.Payloads.TryGetValue(payload.Name, out var last) && last.Version is { } was)
                    yield return Judge(payload, payload.NamePlace, last, $"`{payload.Name}` was issued as version {was} and now states none: nodes that look at it take something else for it");
                continue;
            }
            var layout = Fingerprint.OfLayout(payload).ToDigest();
            if (known.Find(one => one!.Version == version && one.Layout != layout) is not { } other)
                continue;
            var field = payload.Fields.First(one => one is { Role: "version", Constant: not null });
            yield return Judge(
                payload, field.ValuePlace, other, $"`{payload.Name}` is version {version}, which was issued with the layout {other.Layout}; it now has {layout}",
                Next(field, known!) is var (place, next) ? [Offer($"Make it version {next}", place, next)] : []);
        }
    }

    private Finding Judge(Payload payload, Place place, RecordedPayload recorded, FormattableString message, params Fix[] fixes) =>
        At(place, message, $"count the version up and flash every node that sends or reads it, or restore the layout", fixes) with
        {
            Related = See(recorded.Place, $"it was recorded here"),
        };

    // One above all that is known; null where the field holds no more, or counts in anything but ones.
    private static (Place Place, string Text)? Next(Field field, List<RecordedPayload> known)
    {
        var highest = known.Select(one => decimal.TryParse(one.Version, NumberStyles.Number, CultureInfo.InvariantCulture, out var version) ? version : 0).Append(field.Constant!.Value).Max();
        var text = field.ValuePlace.Text;
        var at = text.IndexOf("= ", StringComparison.Ordinal) + 2;
        if (field.Scale != 1 || at < 2 || highest + 1 > (decimal)FieldLimits.OfType(field).High)
            return null;
        var end = text.IndexOfAny([' ', '"', '\''], at);
        return (new(field.ValuePlace.Source, field.ValuePlace.Start + at, (end < 0 ? text.Length : end) - at), FormattableString.Invariant($"{highest + 1:0}"));
    }
}
