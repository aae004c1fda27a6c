using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6202: several payloads arrive on one pipe, and no field tells which is which.</summary>
public sealed class KindsOnOnePipe() : Rule(new(
    "RL6202", Severity.Error, "Several payloads on one pipe without a type",
    "a constant in the role `type` at the same place of each payload (own rule: the chip tells a program the pipe and nothing else, nRF24L01+ Product Specification 1.0, Table 28, RX_P_NO); "
    + "a warning where dynamic lengths tell them apart", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var node in network.DistinctNodes.OrderBy(node => node.Name, NaturalOrder.Instance))
        {
            var plan = network.Plan.Of(node);
            foreach (var pipe in plan.Pipes)
            {
                // Where a length does not fit the pipe, RL4202 and RL6105 speak.
                if (pipe.FixedLength is { } length && pipe.Hops.Any(hop => RetryPlanner.SentBytes(hop) != length))
                    continue;
                if (Judge(network, node, pipe.Hops, FormattableString.Invariant($"arrive on pipe {pipe.Number} of `{node.Label}`"), pipe.FixedLength is null, seen) is { } finding)
                    yield return finding;
            }
            foreach (var hop in plan.Sends.Where(hop => hop.Riders.Length > 1))
            {
                if (Judge(network, node, hop.Riders, $"ride back to `{node.Label}`", true, seen) is { } finding)
                    yield return finding;
            }
        }
    }

    private Finding? Judge(Network network, Node node, ImmutableArray<Hop> hops, string how, bool isDynamic, HashSet<string> seen)
    {
        // Most pipes carry one payload, however many senders they have.
        if (hops.IsEmpty || hops.All(hop => hop.Link.PayloadName?.Value == hops[0].Link.PayloadName?.Value))
            return null;
        var payloads = hops.Select(hop => hop.Link.Payload).OfType<Payload>().GroupBy(payload => payload.Name, StringComparer.Ordinal).Select(same => same.First()).ToList();
        var types = payloads.ConvertAll(PlaceOfType);
        if (payloads.Count < 2 || payloads.Exists(payload => !payload.HasKnownSize) || (types.TrueForAll(type => type is not null) && types.Distinct().Count() == 1))
            return null;
        var isTold = isDynamic && payloads.Select(payload => payload.Size).Distinct().Count() == payloads.Count;
        var first = payloads[Math.Max(0, types.FindIndex(type => type is null))];
        var names = string.Join(" and ", payloads.Select(payload => $"`{payload.Name}`"));
        if (!seen.Add(names))
            return null;
        var without = types.Count(type => type is null);
        return At(
            node, first.NamePlace,
            $"{names} {how}, and {Lack(without, payloads.Count)}: {(isTold ? "their lengths alone tell them apart" : "nothing tells them apart")}",
            $"give each a constant of its own as the first field, such as `type: uint8 = 1`",
            Typed(network, payloads, types) is { Count: > 0 } edits ? [Offer("Give each a type", edits)] : []) with
        {
            Severity = isTold ? Severity.Warning : Severity.Error,
            LinkName = hops[0].Link.Name,
            Related = ImmutableArray.CreateRange(payloads.Where(payload => payload != first).Select(payload => new RelatedPlace(payload.NamePlace, $"`{payload.Name}` is here"))),
        };
    }

    private static string Lack(int without, int all) => without == 0 ? "their types do not stand at one place"
        : without == all ? "none has a constant in the role `type`"
        : FormattableString.Invariant($"{without} of the {all} {(without == 1 ? "has" : "have")} no constant in the role `type`");

    private static (int Offset, int Size)? PlaceOfType(Payload payload)
    {
        foreach (var (field, offset) in payload.Layout())
        {
            if (field is { Role: "type", Constant: not null })
                return (offset, field.Size);
        }
        return null;
    }

    // Numbers from 1 upwards, past those that any payload has (RL6203); none at all unless every payload can be given one.
    private static List<Edit> Typed(Network network, List<Payload> payloads, List<(int Offset, int Size)?> types)
    {
        if (types.Exists(type => type is not null && type != (0, 1)))
            return [];
        var taken = new HashSet<decimal>(network.Payloads.SelectMany(payload => payload.Fields).Where(field => field is { Role: "type", Constant: not null }).Select(field => field.Constant!.Value));
        var edits = new List<Edit>();
        for (var i = 0; i < payloads.Count; i++)
        {
            if (types[i] is not null)
                continue;
            var number = Enumerable.Range(1, 255).FirstOrDefault(one => !taken.Contains(one));
            taken.Add(number);
            if (number == 0 || FurtherField.First(network, payloads[i], "type", FormattableString.Invariant($"uint8 = {number}"), 1) is not { Length: > 0 } further)
                return [];
            edits.AddRange(further);
        }
        return edits;
    }
}
