using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>Channel and rate, each with its reason.</summary>
internal static class AirChoices
{
    public static IEnumerable<Choice> Of(Question question, Solution solution)
    {
        var (network, answer) = (question.Network, solution.Answer);
        if (answer.Channel is { } channel)
        {
            var reason = WhyChannel(question, solution, channel);
            foreach (var (target, key) in Places(network, "channel", question.Freedom.Channel, air => air.Channel))
                yield return new(target, key, FormattableString.Invariant($"{channel}"), reason);
        }
        if (answer.Rate is { } rate)
        {
            var reason = WhyRate(question, solution, rate);
            foreach (var (target, key) in Places(network, "rate", question.Freedom.Rate, air => air.Rate))
                yield return new(target, key, rate.InManifest(), reason);
        }
    }

    public static IEnumerable<string> Kept(Question question, Solution solution)
    {
        if (solution.Answer.Channel is null && question.Network.Nodes.Any(node => question.Freedom.Channel(node)))
            yield return "the channel stays open: no node's radio is known";
        if (solution.Answer.Rate is null && question.Network.Nodes.Any(node => question.Freedom.Rate(node)))
            yield return "the rate stays open: no node's radio is known";
        if (question.Network.Air.Rate is { IsDefault: true, Value.Rate: { } usual, Place: var place } && question.Network.DistinctNodes.Length <= FixedValues.MostKinds
            && PlanSearch.Solve(new(question.Network, question.Measured, new(place))) is { Answer.Rate: { } better } free && free.Cost < solution.Cost && better != usual)
        {
            yield return FormattableString.Invariant($"`rate` is not written and stays {usual.InManifest()}: `rate: {better.InManifest()}` would cost {solution.Cost - free.Cost} points less");
        }
    }

    // One for each place that leaves it open: the network's `air`, that of `all-nodes`, a node's own.
    private static IEnumerable<(object? Target, string Key)> Places<T>(Network network, string key, Func<Node, bool> isOpen, Func<Air, Stated<T>?> of)
    {
        var own = of(network.Air)?.Place;
        foreach (var same in network.Nodes.Where(isOpen).GroupBy(node => of(node.Air)!.Place).Select(same => same.OrderBy(node => node.Name, NaturalOrder.Instance).First())
            .OrderBy(node => node.Name, NaturalOrder.Instance))
        {
            var place = of(same.Air)!.Place;
            yield return place == own ? (null, $"air.{key}") : same.Place.Contains(place) ? (same, $"air.{key}") : (null, $"all-nodes.air.{key}");
        }
    }

    private static string WhyChannel(Question question, Solution solution, int channel)
    {
        var (network, channels) = (question.Network, question.At(solution.Answer.Rate).Channels);
        var allowed = channels.Allowed.ToList();
        var field = channels.IsInTheField(channel) ? "that of the plan in the field; " : "";
        var among = FormattableString.Invariant($"{field}{allowed.Count} channel{(allowed.Count == 1 ? " is" : "s are")} allowed in {Words.Region(network)}");
        var next = allowed.Where(one => one != channel).OrderBy(channels.Cost).ThenByDescending(one => one).Cast<int?>().FirstOrDefault();
        if (question.Measured is { } measured)
        {
            var rival = next is { } one ? FormattableString.Invariant($", {Busy(measured, one)} on {one}") : "";
            return $"{Busy(measured, channel)} of the time by the survey{rival}; {among}";
        }
        if (network.Neighbours is { Wifi.IsEmpty: true, BluetoothLe: null, Ieee802154.IsEmpty: true } && !network.OtherNetworks.Any())
            return FormattableString.Invariant($"{Carrier(channel)}, clear of the Wi-Fi channels that most sites use, 1, 6 and 11; no neighbours are declared and nothing is measured; {among}");
        var gap = channels.Nearest(channel) is { } near ? $", {near.InMegahertz()} from the edge of the nearest" : "";
        return FormattableString.Invariant($"{Carrier(channel)}, clear of all declared neighbours{gap}; {among}");
    }

    private static string Carrier(int channel) => Frequency.FromMegahertz(2_400 + channel).InMegahertz();

    private static string Busy(ChannelCosts measured, int channel) => measured.Busy[channel] is { } busy ? $"busy {busy}" : "not listened to";

    private static string WhyRate(Question question, Solution solution, DataRate rate)
    {
        var load = new Share(question.At(rate).Load.Millionths);
        var others = question.Rates.Where(other => other is not null && other != rate).Select(other => solution.ByRate.TryGetValue(other!.Value, out var cost)
            ? FormattableString.Invariant($"{other.Value.InManifest()} would cost {cost - solution.Cost} points more")
            : $"{other.Value.InManifest()} cannot be had").ToList();
        return $"the links fill {load} of the time{(others.Count == 0 ? ", and all parts have no other rate in common" : $"; {string.Join(", ", others)}")}";
    }
}
