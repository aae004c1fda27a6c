using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of a link.</summary>
public static class LinkKeys
{
    public static readonly Key<ImmutableArray<Stated<string>>> From =
        new("from", new ListShape<string>(Scalars.Reference), "who sends: a node, a group, `group-3..7`, or a list") { IsRequired = true };

    public static readonly Key<ImmutableArray<Stated<string>>> To =
        new("to", new ListShape<string>(Scalars.Reference), "who receives, likewise; only one side may be a list") { IsRequired = true };

    public static readonly Key<string> Payload = new("payload", Scalars.Reference, "what is sent") { IsRequired = true };
    public static readonly Key<Duration> Every = new("every", Quantities.Duration, "period");

    public static readonly Key<Jitter> JitterKey = new(
        "jitter", Quantities.Duration.To(d => new Jitter(d, null)).Or(Quantities.Share.To(s => new Jitter(null, s))).Named("a time or a share such as `10 %`"),
        "random shift of each sending");

    public static readonly Key<Offset> OffsetKey = new(
        "offset", Scalars.Words("an offset", ("spread", new Offset(null))).Or(Quantities.Duration.To(d => new Offset(d))).Named("a time, or `spread`"),
        "shift against the beat");

    public static readonly Key<EventRate> Events = new(
        "events", Scalars.Parsed("a count such as `20 per day`", "^[0-9]+ per (second|minute|hour|day|week)$", ParseEvents), "how many at irregular times");

    public static readonly Key<Duration> Spacing = new("spacing", Quantities.Duration, "shortest gap between two packets");

    public static readonly Key<bool> With =
        new("with", Scalars.Words("a carrier", ("acknowledgement", true), ("own packet", false)), "`acknowledgement`: rides back in the ACK") { Default = "own packet" };

    public static readonly Key<bool> Acknowledge = new("acknowledge", Scalars.Truth, "acknowledged or not; the network's unless stated");
    public static readonly Key<bool> Broadcast = new("broadcast", Scalars.Truth, "one packet for all receivers") { Default = "false" };
    public static readonly Key<bool> MustArrive = new("must-arrive", Scalars.Truth, "may not be lost") { Default = "false" };
    public static readonly Key<Duration> Within = new("within", Quantities.Duration, "wanted delay or freshness");
    public static readonly Key<Duration> LongestGap = new("longest-gap", Quantities.Duration, "longest silence that must be bridged");
    public static readonly Key<int> Message = new("message", Quantities.Count("a length such as `120 bytes`", "byte", "bytes"), "sent in several packets");
    public static readonly Key<WrittenAddress> Address = new("address", AddressKeys.Shape, "address on air; derived unless stated");

    public static readonly Key<PipeChoice> Pipe = new(
        "pipe",
        Scalars.Words("a pipe", ("own", new PipeChoice(null, true)), ("shared", new PipeChoice(null, false)))
            .Or(Quantities.Count("a pipe, 0 to 5").To(n => new PipeChoice(n, null))).Named("a pipe from 0 to 5, own, or shared")
            .Within((scalar, pipe) => pipe.Number is null or (>= 0 and <= 5) ? null : ValueNotInList.At(scalar.Place, scalar.Text, "a pipe", ["0", "1", "2", "3", "4", "5"], null)),
        "the receiver's pipe; own while six suffice");

    public static readonly Key<ImmutableArray<Stated<string>>> Via = new("via", new ListShape<string>(Scalars.Reference), "relay nodes");
    public static readonly Key<Between<Length>> Distance = new("distance", Quantities.Lengths, "between the antennas");
    public static readonly Key<ImmutableArray<Stated<Obstacle>>> Through = new("through", new ListShape<Obstacle>(new ScalarShape<Obstacle>(
        "an obstacle such as `2 x brick wall` or `vegetation 10 m`", ReadObstacle, new SchemaForm.Scalar(null))), "what stands between");

    public static readonly Key<Setting> SettingKey = new("setting", HabitKeys.SettingWord, "what the radio crosses; the network's unless stated");

    public static readonly MapShape<Settings> Shape = new(
        "a link",
        [From, To, Payload, Every, JitterKey, OffsetKey, Events, Spacing, With, Acknowledge, Broadcast, MustArrive, Within, LongestGap, Message, Address,
            Pipe, Via, Distance, Through, SettingKey],
        s => s);

    private static readonly string[] Obstacles =
    [
        "brick wall", "concrete wall", "wood wall", "plywood wall", "plasterboard wall", "metal wall", "glass", "coated glass", "floor", "floors", "vegetation",
    ];

    private static EventRate? ParseEvents(string text)
    {
        var parts = text.Split(' ');
        if (parts.Length != 3 || parts[1] != "per" || !int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count == 0)
            return null;
        long? seconds = parts[2] switch { "second" => 1, "minute" => 60, "hour" => 3_600, "day" => 86_400, "week" => 604_800, _ => null };
        return seconds is { } each ? new(count, new(each * 1_000_000_000)) : null;
    }

    private static Finding? ReadObstacle(LocatedScalar scalar, out Obstacle value)
    {
        var text = scalar.Text;
        var count = 1;
        Length? depth = null;
        var times = text.IndexOf(" x ", StringComparison.Ordinal);
        var floors = text.EndsWith(" floor", StringComparison.Ordinal) || text.EndsWith(" floors", StringComparison.Ordinal);
        var blank = text.IndexOf(' ');
        if (times > 0 && int.TryParse(text.Substring(0, times), NumberStyles.None, CultureInfo.InvariantCulture, out count))
            text = text.Substring(times + 3);
        else if (floors && int.TryParse(text.Substring(0, blank), NumberStyles.None, CultureInfo.InvariantCulture, out count))
            text = text.Substring(blank + 1);
        if (text.StartsWith("vegetation ", StringComparison.Ordinal))
        {
            var fault = Quantities.Length.Read(LocatedScalar.Of(scalar.Place, text.Substring("vegetation ".Length), scalar.IsQuoted), out var length);
            value = new(1, "vegetation", length);
            return fault;
        }
        value = new(count, text, depth);
        if (Array.IndexOf(Obstacles, text + " wall") >= 0)
            return ValueNotInList.At(scalar.Place, scalar.Text, "an obstacle", Obstacles, $"{scalar.Text} wall");
        return Array.IndexOf(Obstacles, text) >= 0 ? null : ValueNotInList.At(scalar.Place, scalar.Text, "an obstacle", Obstacles);
    }
}
