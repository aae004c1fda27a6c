using System.Collections.Immutable;
using RadioLint.Hardware;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of one pin in a board profile.</summary>
internal static class BoardPinKeys
{
    private static readonly Key<ImmutableArray<Stated<string>>> Labels = new("labels", new ListShape<string>(Scalars.Text), "as printed, the usual one first");

    private static readonly Key<ImmutableArray<Stated<PinAbilities>>> Can = new(
        "can",
        new ListShape<PinAbilities>(Scalars.Words(
            "an ability",
            ("in", PinAbilities.In), ("out", PinAbilities.Out), ("analog", PinAbilities.Analog), ("pwm", PinAbilities.Pwm),
            ("interrupt", PinAbilities.Interrupt), ("pin-change", PinAbilities.PinChange))),
        "what it can do");

    private static readonly Key<ImmutableArray<Named<ImmutableArray<Stated<string>>>>> AltLabels = new(
        "alt-labels", new NamedShape<ImmutableArray<Stated<string>>>("labels", new ListShape<string>(Scalars.Text), Scalars.Text), "in other conventions");

    private static readonly Key<PinState> Use = new(
        "use", Scalars.Words("a state", ("caution", PinState.Caution), ("unusable", PinState.Unusable), ("free", PinState.Free)), "whether it is free");

    private static readonly Key<ImmutableArray<Stated<string>>> TakenBy = new("taken-by", new ListShape<string>(Scalars.Text), "why it is not free");
    private static readonly Key<int> Number = new("number", Quantities.Count("a number"), "GPIO number");
    private static readonly Key<int> HeaderPin = new("header-pin", Quantities.Count("a number"), "position on the 40-pin header");
    private static readonly Key<string> ExtiLine = new("exti-line", Scalars.Text, "interrupt line");
    private static readonly Key<ImmutableArray<Stated<string>>> Functions = new("functions", new ListShape<string>(Scalars.Text), "functions on the chip");
    private static readonly Key<ImmutableArray<Stated<string>>> Carries = new("carries", new ListShape<string>(Scalars.Text), "what the board has on it");
    private static readonly Key<string> Note = new("note", Scalars.Text, "restriction");
    private static readonly Key<bool> Tolerates5V = new("tolerates-5v", Scalars.Truth, "stands 5 V");
    private static readonly Key<string> PowerDomain = new("power-domain", Scalars.Text, "which supply it hangs on");
    private static readonly Key<ImmutableArray<Stated<string>>> Pwm = new("pwm", new ListShape<string>(Scalars.Text), "PWM outputs of timers");
    private static readonly Key<string> ResetPull = new("reset-pull", Scalars.Text, "pull at reset");
    private static readonly Key<bool> LowFrequency = new("low-frequency-only", Scalars.Truth, "specified for slow signals only");

    public static readonly MapShape<BoardPin> Shape = new(
        "a pin of a board",
        [
            Labels, Can, AltLabels, Use, TakenBy, Number, HeaderPin, ExtiLine, Functions, Carries, Note, Tolerates5V, PowerDomain, LowFrequency, Pwm, ResetPull,
            Remark.Key("interrupt", "interrupt name"), Remark.Key("pin-change", "pin-change name"), Remark.Key("analog", "analogue input"),
        ],
        s => new("", Texts(s.Written(Labels)))
        {
            OtherLabels = s.Written(AltLabels) is { } others
                ? ImmutableArray.CreateRange(others.Value.SelectMany(other => other.Value.Value).Select(label => label.Value))
                : ImmutableArray<string>.Empty,
            Can = s.Written(Can)?.Value.Aggregate(PinAbilities.None, (all, one) => all | one.Value) ?? PinAbilities.In | PinAbilities.Out,
            State = s.Written(Use)?.Value ?? PinState.Free,
            TakenBy = Texts(s.Written(TakenBy)),
            Number = s.Written(Number)?.Value,
            HeaderPin = s.Written(HeaderPin)?.Value,
            ExtiLine = s.Written(ExtiLine)?.Value,
            Functions = Texts(s.Written(Functions)),
            Carries = Texts(s.Written(Carries)),
            Note = s.Written(Note)?.Value,
            Tolerates5V = s.Written(Tolerates5V)?.Value,
            PwmOutputs = Texts(s.Written(Pwm)),
            ResetPull = s.Written(ResetPull)?.Value,
            PowerDomain = s.Written(PowerDomain)?.Value,
            IsLowFrequencyOnly = s.Written(LowFrequency)?.Value ?? false,
        });

    internal static ImmutableArray<string> Texts(Stated<ImmutableArray<Stated<string>>>? list) =>
        list is null ? ImmutableArray<string>.Empty : ImmutableArray.CreateRange(list.Value.Select(one => one.Value));
}
