using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>Other systems at a site: those that the manifest names, and those that the logs show.</summary>
internal static class BandSystems
{
    /// <summary>What the manifest names and a plan of channels knows, none heard yet.</summary>
    public static ImmutableArray<SystemInBand> Declared(Network network)
    {
        var found = ImmutableArray.CreateBuilder<SystemInBand>();
        foreach (var wifi in network.Neighbours.Wifi.Select(each => each.Value))
        {
            if (NeighbourPlans.Wifi.Occupied(wifi) is not { } used)
                continue;
            var pair = wifi.Partner is { } other ? (Math.Min(wifi.Channel, other), (int?)Math.Max(wifi.Channel, other)) : (wifi.Channel, null);
            found.Add(new(SystemKind.Wifi, pair.Item1, pair.Item2, used, true, false));
        }
        if (network.Neighbours.BluetoothLe?.Value is true)
            found.AddRange(NeighbourPlans.BluetoothLe.Advertising.Select(
                each => new SystemInBand(SystemKind.BluetoothLeAdvertising, each.Index, null, NeighbourPlans.BluetoothLe.Occupied(each), true, false)));
        foreach (var channel in network.Neighbours.Ieee802154.Select(each => each.Value))
        {
            if (NeighbourPlans.Ieee802154.Occupied(channel) is { } used)
                found.Add(new(SystemKind.Ieee802154, channel, null, used, true, false));
        }
        return InOrder(found);
    }

    /// <summary>Both together. One half of a declared pair that is heard makes the pair heard.</summary>
    public static ImmutableArray<SystemInBand> All(ImmutableArray<SystemInBand> declared, IEnumerable<HeardSystem> heard)
    {
        var all = declared.ToList();
        foreach (var each in heard)
        {
            var known = all.FindIndex(each.IsOf);
            if (known >= 0)
                all[known] = all[known] with { IsHeard = true };
            else
                all.Add(new(each.Kind, each.Channel, each.Partner, each.Occupied, false, true));
        }
        return InOrder(all);
    }

    /// <summary>As people call it: `Wi-Fi channel 6`.</summary>
    public static string Named(SystemInBand system)
    {
        var number = FormattableString.Invariant($"{system.Channel}");
        return system.Kind switch
        {
            SystemKind.Wifi => system.Partner is { } partner ? FormattableString.Invariant($"Wi-Fi channel {number}+{partner}") : $"Wi-Fi channel {number}",
            SystemKind.BluetoothLeAdvertising => $"Bluetooth LE advertising channel {number}",
            _ => $"IEEE 802.15.4 channel {number}",
        };
    }

    private static ImmutableArray<SystemInBand> InOrder(IEnumerable<SystemInBand> systems) =>
        ImmutableArray.CreateRange(systems.Distinct().OrderBy(each => each.Kind).ThenBy(each => each.Channel).ThenBy(each => each.Partner ?? 0).ThenBy(each => each.Occupied.Low));
}
