using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Rules.Spectrum;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>Declared neighbours whose distance is known, as a receiver hears them.</summary>
internal sealed class Interferers
{
    private readonly ImmutableArray<WifiNeighbour> wifi;
    private readonly ImmutableArray<OtherNetwork> networks;

    private Interferers(ImmutableArray<WifiNeighbour> wifi, ImmutableArray<OtherNetwork> networks) => (this.wifi, this.networks) = (wifi, networks);

    public bool IsEmpty => wifi.IsEmpty && networks.IsEmpty;

    public static Interferers Of(Network network) => new(
        ImmutableArray.CreateRange(network.Neighbours.Wifi.Select(one => one.Value).Where(one => one.Distance is not null && NeighbourPlans.Wifi.Occupied(one) is not null)),
        ImmutableArray.CreateRange(network.OtherNetworks.Select(one => one.Value).Where(one => one.Distance is not null && one.Channel?.Value.Number is not null)));

    /// <summary>The level that a wanted signal must reach to be heard beside the strongest of them: null where none is known, or the receiver is not.</summary>
    public PowerLevel? Floor(Node receiver, int channel)
    {
        if (receiver is not { Part: { } part, Air.ChosenRate: { } rate } || part.Rate(rate) is not { } at || LinkBudget.Antenna(receiver) is not { } antenna)
            return null;
        var carrier = part.Channel.Carrier(channel);
        PowerLevel? floor = null;
        foreach (var one in wifi)
        {
            // What falls into the receiver's own band, the nearest that it may be.
            var taken = NeighbourPlans.Wifi.Occupied(one)!.Value;
            var level = InterfererLevel.InBand(
                InterfererLevel.UsualWifi, taken.High - taken.Low, Apart(carrier, taken), at.Width.Value, PathLoss.FreeSpace(PathLoss.MidBand, one.Distance!.Value.Low));
            Raise(LinkBudget.Arriving(level, default, antenna.Gain, antenna.Cable), part.Interference.NeededAgainstBlocker(rate, default));
        }
        foreach (var other in networks)
        {
            var away = Difference(carrier, part.Channel.Carrier(other.Channel!.Value.Number!.Value));
            var level = LinkBudget.Arriving(InterfererLevel.UsualNetwork, PathLoss.FreeSpace(PathLoss.MidBand, other.Distance!.Value.Low), antenna.Gain, antenna.Cable);
            Raise(level, part.Interference.NeededAgainstOwnKind(rate, away));
        }
        return floor;

        void Raise(PowerLevel level, Gain? needed)
        {
            if (needed is { } more && (floor is null || level + more > floor))
                floor = level + more;
        }
    }

    private static Frequency Apart(Frequency carrier, Between<Frequency> taken) => Difference(carrier, new((taken.Low.Hertz + taken.High.Hertz) / 2));

    private static Frequency Difference(Frequency one, Frequency other) => one > other ? one - other : other - one;
}
