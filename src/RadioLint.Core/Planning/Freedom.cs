using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>Which values may be chosen: those that are open, and one written value that is let go to learn what it costs. Nodes of somebody else keep what they have.</summary>
internal sealed record Freedom(Place? LetGo)
{
    public static readonly Freedom AsWritten = new((Place?)null);

    public bool Rate(Node node) => !node.IsExternal && node.Air.Rate is { } rate && (rate.Value.Rate is null || LetGo == rate.Place);

    public bool Channel(Node node) => !node.IsExternal && node.Air.Channel is { } channel && (channel.Value.Number is null || Holds(channel));

    public bool Power(Node node) => !node.IsExternal && node.Power is { } power && (power.IsDefault || Holds(power));

    public bool Delay(Node node) => !node.IsExternal && node.Air.Retry.Delay is { } delay && (delay.Value.IsOpen || Holds(delay));

    private bool Holds<T>(Stated<T> stated) => !stated.IsDefault && LetGo == stated.Place;
}
