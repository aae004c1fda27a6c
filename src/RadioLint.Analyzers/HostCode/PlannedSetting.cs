using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Analyzers.HostCode;

/// <summary>
/// From the path in a `[Planned]` attribute to what was generated for it: `air.channel`, `nodes.hive-1.power`, `links.hive-1.shed.reading.pipe`,
/// `payloads.reading`. With several manifests the network's name stands before it: `larkfield-apiary/air.channel`.
/// </summary>
internal static class PlannedSetting
{
    /// <summary>What stands behind a path.</summary>
    /// <param name="Member">The generated constant or struct; null when there is none.</param>
    /// <param name="Fault">Then what is wrong.</param>
    /// <param name="Right">The whole path with the nearest name that is known; several where several are as near, null where none is near.</param>
    internal readonly record struct Found(ISymbol? Member, string? Fault = null, IReadOnlyList<string>? Right = null)
    {
        public static Found Nothing(string fault) => new(null, fault);

        /// <param name="before">What stands in the path before the name that is not known.</param>
        public static Found Unknown(string fault, string before, string wrong, string after, IEnumerable<string> known) =>
            Nearest.AllTo(wrong, known) is { Count: > 0 } near ? new(null, $"{fault}; write `{near[0]}`", near.Select(one => before + one + after).ToList()) : new(null, fault);
    }

    private static readonly (string Key, string Member)[] OfAir =
    [
        ("fingerprint", "Fingerprint"), ("channel", "Channel"), ("frequency", "FrequencyMHz"), ("rate", "RateKbps"), ("address-width", "AddressWidth"), ("crc", "CrcBytes"),
        ("acknowledge", "IsAcknowledged"), ("payload-length", "PacketBytes"), ("retry.delay", "RetryDelayUs"), ("retry.limit", "RetryLimit"),
    ];

    private static readonly (string Key, string Member)[] OfNode =
    [
        ("name", "Name"), ("number", "Number"), ("digest", "Digest"), ("power", "PowerDbm"), ("spi.clock", "SpiClockHz"), ("spi.select", "SpiSelect"),
        ("retry.delay", "RetryDelayUs"), ("retry.limit", "RetryLimit"), ("sleep.wakes", "WakesEverySeconds"), ("sleep.awake", "AwakeSeconds"),
    ];

    private static readonly (string Key, string Member)[] OfLink =
    [
        ("address", "Address"), ("pipe", "Pipe"), ("every", "EverySeconds"), ("longest", "LongestUs"), ("acknowledge", "IsAcknowledged"), ("payload", "Payload"),
    ];

    private static readonly string[] Signals = ["ce", "csn", "irq", "sck", "mosi", "miso"];

    /// <summary>Looks a path up.</summary>
    /// <param name="wantsText">Whether the bound value is text: a pin is then called as printed, else by its number.</param>
    public static Found Find(Host host, string path, bool wantsText)
    {
        var slash = path.IndexOf('/');
        var network = slash < 0 ? host.Networks[0] : host.Networks.FirstOrDefault(one => one.Name == path.Substring(0, slash));
        if (network is null)
            return Found.Unknown($"no manifest of this project has the network `{path.Substring(0, slash)}`", "", path.Substring(0, slash), path.Substring(slash), host.Networks.Select(one => one.Name));
        if (slash < 0 && host.Networks.Length > 1)
            return Found.Nothing($"`{path}` does not say of which network: write `{network.Name}/{path}`");
        var words = path.Substring(slash + 1).Split('.');
        var found = words[0] switch
        {
            "air" => Member(network.Nested("Air"), Rest(words, 1), OfAir, $"air"),
            "nodes" when words.Length > 2 => NodeMember(network, words[1], Rest(words, 2), wantsText),
            "links" when words.Length > 4 => LinkMember(network, words),
            "payloads" when words.Length is 2 or 3 => PayloadMember(network, words),
            _ => Found.Nothing($"`{path}` is no setting of the plan: settings begin with `air.`, `nodes.NAME.`, `links.FROM.TO.PAYLOAD.` or `payloads.NAME`"),
        };
        return found.Right is null ? found : found with { Right = found.Right.Select(right => path.Substring(0, slash + 1) + right).ToList() };
    }

    private static Found NodeMember(PlannedNetwork network, string name, string key, bool wantsText)
    {
        if (network.NodeOf(name) is not { } node)
            return Found.Unknown($"network `{network.Name}` has no node `{name}`", "nodes.", name, "." + key, network.Network.Nodes.Select(one => one.Name));
        if (key.StartsWith("pins.", StringComparison.Ordinal) && Signals.Contains(key.Substring(5), StringComparer.Ordinal))
        {
            var signal = char.ToUpperInvariant(key[5]) + key.Substring(6);
            var pins = node.GetTypeMembers("Pins").FirstOrDefault();
            // In text as the manifest writes it: by the chip's name, where the board prints another.
            var names = wantsText ? new[] { signal + "Port", signal } : [signal + "Number"];
            return names.SelectMany(one => pins?.GetMembers(one) ?? ImmutableArray<ISymbol>.Empty).FirstOrDefault() is { } pin ? new(pin) : Found.Nothing($"`{name}` has no {(wantsText ? "pin" : "numbered pin")} for {key.Substring(5).ToUpperInvariant()}");
        }
        if (!key.StartsWith("air.", StringComparison.Ordinal))
            return Member(node, key, OfNode, $"nodes.{name}");
        // A node says what is its own; the rest is the network's.
        var own = Member(node, key.Substring(4), OfAir, $"nodes.{name}.air");
        return own.Member is not null ? own : Member(network.Nested("Air"), key.Substring(4), OfAir, $"nodes.{name}.air");
    }

    private static Found LinkMember(PlannedNetwork network, string[] words)
    {
        foreach (var (at, name) in new[] { (1, words[1]), (2, words[2]) })
        {
            if (network.NodeOf(name) is null)
                return Found.Unknown($"network `{network.Name}` has no node `{name}`", string.Join(".", words.Take(at)) + ".", name, "." + Rest(words, at + 1), network.Network.Nodes.Select(one => one.Name));
        }
        var link = network.Links.FirstOrDefault(one => Is(one, "From", words[1]) && Is(one, "To", words[2]) && Is(one, "Payload", words[3]));
        return link is null
            ? Found.Nothing($"network `{network.Name}` has no link from `{words[1]}` to `{words[2]}` with `{words[3]}`")
            : Member(link, Rest(words, 4), OfLink, $"links.{words[1]}.{words[2]}.{words[3]}");
    }

    private static Found PayloadMember(PlannedNetwork network, string[] words)
    {
        if (network.Network.Payloads.FirstOrDefault(one => one.Name == words[1]) is not { } payload || network.StructOf(payload) is not { } made)
            return Found.Unknown($"network `{network.Name}` has no payload `{words[1]}`", "payloads.", words[1], words.Length == 3 ? "." + words[2] : "", network.Network.Payloads.Select(one => one.Name));
        return words.Length == 2 ? new(made) : Member(made, words[2], [("size", "Size")], $"payloads.{words[1]}");
    }

    private static Found Member(INamedTypeSymbol? type, string key, (string Key, string Member)[] known, string where)
    {
        var member = known.FirstOrDefault(one => one.Key == key).Member;
        if (member is null)
            return Found.Unknown($"`{where}` has no setting `{key}`", where + ".", key, "", known.Select(one => one.Key));
        return type?.GetMembers(member).FirstOrDefault() is { } found ? new(found) : Found.Nothing($"the manifest gives `{where}` no value for `{key}`");
    }

    private static bool Is(INamedTypeSymbol link, string member, string value) =>
        link.GetMembers(member).FirstOrDefault() is IFieldSymbol { ConstantValue: string text } && text == value;

    private static string Rest(string[] words, int from) => string.Join(".", words.Skip(from));
}
