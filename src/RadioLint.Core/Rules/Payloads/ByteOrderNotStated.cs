using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6104: numbers of several bytes go to or come from somebody else's firmware, and their order is a guess.</summary>
public sealed class ByteOrderNotStated() : Rule(new(
    "RL6104", Severity.Info, "Byte order not stated",
    "the order of numbers of several bytes, where an end of the link is `external` (own rule: nodes whose firmware is emitted here have the same order by construction)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            if (payload.BigEndian is not null || payload.Fields.FirstOrDefault(HasOrder) is not { } field
                || network.HopsOf(payload).FirstOrDefault(hop => hop.Sender.IsExternal || hop.Receiver.IsExternal) is not { } hop)
            {
                continue;
            }
            var stranger = hop.Sender.IsExternal ? hop.Sender : hop.Receiver;
            yield return At(
                hop, payload.NamePlace,
                $"`{payload.Name}` does not state its byte order: `{field.Name}` of {field.ItemSize} bytes is taken to be little-endian at `{stranger.Label}` too, whose firmware is not emitted here",
                $"look at a captured packet and state `byte-order: little` or `big`",
                new Fix(FixGrade.Safe, "State the little-endian order that holds now", ImmutableArray.CreateRange(Stating(payload))));
        }
    }

    private static bool HasOrder(Field field) => field.ItemSize > 1 && field.Kind is not (FieldKind.Text or FieldKind.Bytes or FieldKind.CompilerDependent);

    private static List<Edit> Stating(Payload payload)
    {
        var (all, place) = (payload.Place.Source.Text, payload.Place);
        var isJson = all.TrimStart().StartsWith("{", StringComparison.Ordinal);
        var (order, fields) = isJson ? ("\"byte-order\": \"little\"", "\"fields\"") : ("byte-order: little", "fields");
        if (all[place.Start] == '{')
            return payload.FieldsPlace == place ? [Edit.Value(place, $"{{ {fields}: {place.Text}, {order} }}")] : [Insert(place.Start + 1, $" {order},")];
        var indent = new string(' ', place.From.Column - 1);
        if (payload.FieldsPlace != place)
            return [Insert(place.Start, $"{order}\n{indent}")];
        // A block of fields moves one level in, each line with what stands behind it.
        var edits = new List<Edit> { Insert(place.Start, $"{fields}:\n{indent}  ") };
        for (var at = all.IndexOf('\n', place.Start); at >= 0 && at < place.End; at = all.IndexOf('\n', at + 1))
            edits.Add(Insert(at + 1, "  "));
        var end = all.IndexOfAny(['\r', '\n'], place.End);
        edits.Add(Insert(end < 0 ? all.Length : end, $"\n{indent}{order}"));
        return edits;

        Edit Insert(int at, string text) => new(new(place.Source, at, 0), text);
    }
}
