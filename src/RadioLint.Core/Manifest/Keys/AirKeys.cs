using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of `air`, for the network and for a node that differs.</summary>
public static class AirKeys
{
    internal const string RetryAdvice = "write delay, limit or both, such as `{ delay: 500 us, limit: 15 }`, or leave it out to have it planned";

    private static readonly Key<RetryDelay> DelayKey = new(
        "delay",
        new FormsShape<RetryDelay>(
            Scalars.Words("a delay", ("open", new RetryDelay(ImmutableArray<Stated<Duration>>.Empty))).Or(Quantities.Duration.To(d => One(d))).Named("a time such as `500 us`, or `open`")
                .Within((scalar, delay) => delay.IsOpen ? null : RetryStep.Judge(scalar, delay.Delays[0].Value)),
            null,
            new ListShape<Duration>(Quantities.Duration.Within(RetryStep.Judge)).As(list => new RetryDelay(list))),
        "wait before a repetition; `open`: planned, the least legal delay spread over collision-proof classes")
    { Default = "open" };

    private static readonly Key<int> LimitKey =
        new("limit", Quantities.Count("a number of repetitions such as `15`", "times", "retries").Within(RetryStep.JudgeLimit), "repetitions before the radio gives up, 0 to 15") { Default = "15" };

    public static readonly MapShape<Retry> RetryShape = new(
        "`retry`", [DelayKey, LimitKey], s => new Retry(Placed(s.Get(DelayKey)), s.Get(LimitKey)));

    public static readonly Key<ChannelSetting> Channel =
        new("channel", AirScalars.ChannelOrOpen, "channel n at 2400 + n MHz, or `open` for the planner") { Default = "open" };

    public static readonly Key<ImmutableArray<Stated<ChannelRun>>> Avoid =
        new("avoid", new ListShape<ChannelRun>(AirScalars.Run), "channels to keep free: numbers and ranges");

    public static readonly Key<RateSetting> Rate = new("rate", AirScalars.RateOrOpen, "data rate on air") { Default = "1 Mbps" };

    public static readonly Key<int> AddressWidth =
        new("address-width", Quantities.Count("a number of bytes such as `5`", "byte", "bytes"), "bytes of every address, 3 to 5") { Default = "5" };

    public static readonly Key<int> Crc = new("crc", AirScalars.CrcBytes, "length of the check sum") { Default = "2 bytes" };
    public static readonly Key<bool> Acknowledge = new("acknowledge", Scalars.Truth, "automatic acknowledgement") { Default = "true" };
    public static readonly Key<LengthMode> PayloadLength = new("payload-length", AirScalars.PayloadLengths, "how a receiver knows the length") { Default = "dynamic" };
    public static readonly Key<Retry> Retry = new("retry", RetryShape, "repetitions; a sender's own business") { Advice = RetryAdvice };
    public static readonly Key<Neighbours> NeighboursKey = new("neighbours", NeighbourKeys.Shape, "who else uses the band here");

    public static readonly Key<bool> NoAcknowledge =
        new("no-acknowledge", Scalars.Truth, "whether the firmware sets EN_DYN_ACK; set where a link needs it unless stated");

    public static readonly MapShape<Settings> Shape = new(
        "`air`", [Channel, Avoid, Rate, AddressWidth, Crc, Acknowledge, PayloadLength, NoAcknowledge, Retry, NeighboursKey], s => s);

    /// <summary>What holds when `retry` is not written.</summary>
    internal static Retry DefaultRetry(RadioLint.Text.Place place) => new(DelayKey.DefaultAt(place), LimitKey.DefaultAt(place));

    private static RetryDelay One(Duration duration) => new(ImmutableArray.Create(new Stated<Duration>(duration, default)));

    // A single delay is read without its place; give it that of the key's value.
    private static Stated<RetryDelay>? Placed(Stated<RetryDelay>? delay) =>
        delay is { Value.Delays: [{ Place.Source: null } only] }
            ? delay with { Value = new(ImmutableArray.Create(only with { Place = delay.Place })) }
            : delay;
}
