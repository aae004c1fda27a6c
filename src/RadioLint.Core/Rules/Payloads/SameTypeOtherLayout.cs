using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6203: two payloads that say the same of themselves and are laid out differently.</summary>
public sealed class SameTypeOtherLayout() : Rule(new(
    "RL6203", Severity.Error, "Same type and version, another layout",
    "one layout for each constant in the role `type`, with that in the role `version` where there is one (own rule); a warning while no node receives both", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var known = new Dictionary<string, List<Payload>>(StringComparer.Ordinal);
        foreach (var payload in network.Payloads.OrderBy(payload => payload.Name, NaturalOrder.Instance))
        {
            if (!payload.HasKnownSize || payload.Fields.FirstOrDefault(field => field is { Role: "type", Constant: not null }) is not { } type)
                continue;
            var key = FormattableString.Invariant($"{type.Constant} version {Fingerprint.VersionOf(payload) ?? "none"}");
            if (!known.TryGetValue(key, out var same))
                known.Add(key, same = []);
            var layout = Fingerprint.OfLayout(payload).ToDigest();
            var others = same.Where(one => Fingerprint.OfLayout(one).ToDigest() != layout).ToList();
            // Each is told of once: against one that a node of its own receives, if there is such a one.
            if ((others.Find(one => Meet(network, payload, one)) ?? others.FirstOrDefault()) is { } other)
                yield return Judge(network, payload, type, other);
            if (same.TrueForAll(one => others.Contains(one)))
                same.Add(payload);
        }
    }

    private Finding Judge(Network network, Payload payload, Field type, Payload other)
    {
        var version = Fingerprint.VersionOf(payload) is { } stated ? $", version {stated}," : "";
        return At(
            type.ValuePlace,
            $"`{payload.Name}` of {payload.Size} bytes is type {type.Constant!.Value}{version} and so is `{other.Name}` of {other.Size} bytes, which is laid out otherwise",
            $"give one of the two another constant") with
        {
            Severity = Meet(network, payload, other) ? Severity.Error : Severity.Warning,
            Related = See(other.Fields.First(field => field is { Role: "type", Constant: not null }).ValuePlace, $"`{other.Name}` has its type here"),
        };
    }

    private static bool Meet(Network network, Payload one, Payload other)
    {
        var receivers = new HashSet<Node>(network.HopsOf(one).Select(hop => hop.Receiver));
        return network.HopsOf(other).Any(hop => receivers.Contains(hop.Receiver));
    }
}
