using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of `sleep`, `service`, `host`, `wifi` and `measured`.</summary>
public static class HabitKeys
{
    /// <summary>What the radio crosses.</summary>
    public static readonly ScalarShape<Setting> SettingWord = Scalars.Words(
        "a setting", ("open", Setting.Open), ("house", Setting.House), ("office", Setting.Office), ("hall", Setting.Hall));

    private const string WakeExpected = "`to send`, `every 10 min` or `by pin D2`";

    private static readonly ScalarShape<Wake> WakeShape = new(
        WakeExpected, ReadWake, new SchemaForm.Scalar("^(to send|every [0-9]+([.][0-9]+)? [a-z]+|by pin .+)$"));

    private static readonly ScalarShape<Listening> ListenShape =
        Scalars.Words("a habit", ("never", new Listening(false, null)), ("always", new Listening(true, null)))
            .Or(Quantities.Duration.To(window => new Listening(false, window))).Named("never, always, or a time such as `20 ms`");

    private static readonly Key<Wake> Wakes = new("wakes", WakeShape, "what wakes it");
    private static readonly Key<Duration> Awake = new("awake", Quantities.Duration, "how long it stays awake");
    private static readonly Key<Listening> Listens = new("listens", ListenShape, "whether it listens: never, always, or so long after waking") { Default = "never" };

    private static readonly Key<RadioRest> Rest = new(
        "radio",
        Scalars.Words("a state", ("power-down", RadioRest.PowerDown), ("standby", RadioRest.Standby), ("receiving", RadioRest.Receiving)),
        "the radio's state meanwhile");

    private static readonly Key<bool> Lines = new("lines", Scalars.Words("a state", ("held", true), ("floating", false)), "the radio's lines meanwhile");
    private static readonly Key<Current> SleepCurrent = new("current", Quantities.Current, "the whole node's current asleep");
    private static readonly Key<string> Timer = new("timer", Scalars.Text, "`watchdog`, `crystal`, or its error such as `2 %`");

    public static readonly MapShape<Sleep> SleepShape = new(
        "`sleep`",
        [Wakes, Awake, Listens, Rest, Lines, SleepCurrent, Timer],
        s => new(
            s.Place, s.Written(Wakes), s.Written(Awake), s.Get(Listens), s.Written(Rest), s.Written(Lines), s.Written(SleepCurrent), s.Written(Timer)));

    private static readonly Key<bool> By = new("by", Scalars.Words("a way", ("interrupt", true), ("polling", false)), "interrupt or polling");
    private static readonly Key<Duration> Every = new("every", Quantities.Duration, "how often it looks");
    private static readonly Key<Duration> Takes = new("takes", Quantities.Duration, "how long a packet keeps it busy");
    private static readonly Key<Duration> Watchdog = new("watchdog", Quantities.Duration, "when the watchdog restarts it");

    public static readonly MapShape<Service> ServiceShape = new(
        "`service`",
        [By, Every, Takes, Watchdog],
        s => new(s.Place, s.Written(By), s.Written(Every), s.Written(Takes), s.Written(Watchdog)));

    private static readonly Key<string> HostBy =
        new("by", Scalars.Words("a way", ("serial", "serial"), ("spi", "spi"), ("network", "network")), "serial, spi or network");

    // Kept as written: only people read it.
    private static readonly ScalarShape<string> Speed = new(
        "a speed such as `115200 baud`, `1 MHz` or `10 Mbps`",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            if (Quantity.TrySplit(value, out _, out var unit) && unit is "kbps" or "Mbps" || Quantities.Frequency.Read(scalar, out _) is null)
                return null;
            return Quantities.SymbolRate.Read(scalar, out _);
        },
        new SchemaForm.Scalar("^[0-9]+([.][0-9]+)? (baud|Hz|kHz|MHz|kbps|Mbps)$"));

    private static readonly Key<string> HostSpeed = new("speed", Speed, "of the line, such as `115200 baud`");

    public static readonly MapShape<Host> HostShape = new("`host`", [HostBy, HostSpeed], s => new(s.Written(HostBy), s.Written(HostSpeed)));

    public static readonly ScalarShape<int?> OwnWifi =
        Scalars.Words<int?>("a Wi-Fi channel", ("none", null)).Or(Quantities.Count("a Wi-Fi channel, 1 to 14").To(n => (int?)n)).Named("none, or a Wi-Fi channel, 1 to 14");

    private static readonly Key<Voltage> MeasuredSupply = new("supply", Quantities.Voltage, "at the radio's pins while it sends");
    private static readonly Key<Current> MeasuredSleep = new("sleep", Quantities.Current, "the whole node asleep");
    private static readonly Key<Share> Lost = new("lost", Quantities.Share, "share of packets lost");
    private static readonly Key<bool> Touching = new("touching-helps", Scalars.Truth, "touching module or antenna makes it work");

    public static readonly MapShape<Measured> MeasuredShape = new(
        "`measured`",
        [MeasuredSupply, MeasuredSleep, Lost, Touching],
        s => new(s.Place, s.Written(MeasuredSupply), s.Written(MeasuredSleep), s.Written(Lost), s.Written(Touching)));

    private static Finding? ReadWake(LocatedScalar scalar, out Wake value)
    {
        var text = scalar.Text;
        value = new(WakeKind.ToSend, null, null);
        if (text == "to send")
            return null;
        if (text.StartsWith("by pin ", StringComparison.Ordinal))
        {
            value = new(WakeKind.ByPin, null, text.Substring("by pin ".Length));
            return null;
        }
        if (Quantities.Duration.Read(scalar, out _) is null)
            return WrongType.Meant(scalar, $"`{text}` does not say what wakes it", $"every {text}");
        if (!text.StartsWith("every ", StringComparison.Ordinal))
            return WrongType.At(scalar.Place, $"`{text}`", WakeExpected);
        var fault = Quantities.Duration.Read(LocatedScalar.Of(scalar.Place, text.Substring("every ".Length), scalar.IsQuoted), out var period);
        value = new(WakeKind.Every, period, null);
        return fault;
    }
}
