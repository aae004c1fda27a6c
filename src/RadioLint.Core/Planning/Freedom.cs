using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>Which values may be chosen: those that are open, and one written value that is let go to learn what it costs.</summary>
internal sealed record Freedom(Place? LetGo)
{
    public static readonly Freedom AsWritten = new((Place?)null);

    public bool Rate(Node node) => !node.IsExternal && node.Air.Rate is { } rate && (rate.Value.Rate is null || Holds(rate));

    public bool Channel(Node node) => !node.IsExternal && node.Air.Channel is { } channel && (channel.Value.Number is null || Holds(channel));

    public bool Power(Node node) => !node.IsExternal && node.Power is { } power && (power.IsDefault || Holds(power));

    public bool Delay(Node node) => !node.IsExternal && node.Air.Retry.Delay is { } delay && (delay.Value.IsOpen || Holds(delay));

    /// <summary>A node of somebody else keeps what it has; its default is no choice of ours.</summary>
    public bool IsLetGo(Stated<PowerLevel> power) => Holds(power);

    private bool Holds<T>(Stated<T> stated) => !stated.IsDefault && LetGo == stated.Place;
}
