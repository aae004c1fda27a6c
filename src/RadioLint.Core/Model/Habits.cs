using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>What wakes a sleeper.</summary>
public enum WakeKind
{
    ToSend,
    Every,
    ByPin,
}

/// <summary>`to send`, `every 10 min`, `by pin D2`.</summary>
public sealed record Wake(WakeKind Kind, Duration? Period, string? Pin);

/// <summary>Whether a sleeper listens: never, always, or for a while after it wakes.</summary>
public sealed record Listening(bool Always, Duration? Window)
{
    public bool Never => !Always && Window is null;
}

/// <summary>Where the radio rests while the controller sleeps.</summary>
public enum RadioRest
{
    PowerDown,
    Standby,
    Receiving,
}

/// <summary>How a node sleeps.</summary>
public sealed record Sleep(
    Place Place,
    Stated<Wake>? Wakes,
    Stated<Duration>? Awake,
    Stated<Listening>? Listens,
    Stated<RadioRest>? Radio,
    Stated<bool>? LinesHeld,
    Stated<Current>? Current,
    Stated<string>? Timer);

/// <summary>How the program tends the radio.</summary>
public sealed record Service(Place Place, Stated<bool>? ByInterrupt, Stated<Duration>? Every, Stated<Duration>? Takes, Stated<Duration>? Watchdog);

/// <summary>How a node reaches a host computer.</summary>
public sealed record Host(Stated<string>? By, Stated<string>? Speed);

/// <summary>Readings from the bench.</summary>
public sealed record Measured(Place Place, Stated<Voltage>? Supply, Stated<Current>? Sleep, Stated<Share>? Lost, Stated<bool>? TouchingHelps);

/// <summary>A receive pipe as a node's own firmware has it.</summary>
/// <param name="Number">0 to 5 unless the manifest errs.</param>
/// <param name="Key">The pipe's key.</param>
public sealed record OwnPipe(
    int Number,
    LocatedScalar Key,
    Place Place,
    bool IsClosed,
    Stated<WrittenAddress>? Address,
    Stated<bool>? Acknowledge,
    Stated<LengthMode>? PayloadLength);

/// <summary>One obstacle or several alike between two nodes.</summary>
public sealed record Obstacle(int Count, string Kind, Length? Depth);

/// <summary>The surroundings that the radio crosses.</summary>
public enum Setting
{
    Open,
    House,
    Office,
    Hall,
}
