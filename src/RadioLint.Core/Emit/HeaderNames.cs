using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Emit;

/// <summary>
/// Every name that headers define. A program may include several headers of a network, so a name may stand in one of them only, and
/// there once.
/// </summary>
internal static class HeaderNames
{
    /// <param name="Scope">The struct that a member stands in; empty for what a program sees.</param>
    private readonly record struct Use(NodeHeader Header, string Scope, string Name, string From, Place Place);

    public static IEnumerable<Finding> Clashes(IReadOnlyList<(NodeFacts Facts, NodeHeader Header)> headers)
    {
        var seen = new Dictionary<(string Scope, string Name), Use>();
        foreach (var use in headers.SelectMany(one => Of(one.Facts, one.Header)))
        {
            if (seen.TryAdd((use.Scope, use.Name), use))
                continue;
            var first = seen[(use.Scope, use.Name)];
            // Two nodes of one file are RL8204's to say.
            if (ReferenceEquals(first.Header, use.Header) || first.Header.FileName != use.Header.FileName)
                yield return UnusableName.SameIdentifier(use.Place, use.From, first.Place, first.From, use.Name);
        }
    }

    private static IEnumerable<Use> Of(NodeFacts facts, NodeHeader header)
    {
        var node = facts.Node;
        Use OfNode(string name) => new(header, "", name, node.Name, node.NamePlace);
        yield return OfNode($"{C.Upper(header.Ident)}_RADIO_H");
        foreach (var constant in header.Identity.Concat(header.Planned).Concat(header.States).Concat(header.Pins.Constants))
            yield return OfNode(constant.Name);
        foreach (var function in new[] { "configure", "verify", "listen", "frames", "listen_frames" })
            yield return OfNode($"{header.Ident}_{function}");
        foreach (var aim in header.Aims)
        {
            yield return OfNode(aim.Name);
            yield return OfNode(aim.Table.Name);
        }
        foreach (var (group, link) in header.Links.Zip(facts.Outgoing.Concat(facts.Answers).Concat(facts.Incoming).Concat(facts.Returned)))
        {
            foreach (var constant in group.Constants)
                yield return new(header, "", constant.Name, link.Payload.Name, link.Hop.Link.Place);
        }
        foreach (var (block, (payload, _)) in header.Payloads.Zip(facts.Payloads))
        {
            foreach (var name in new[] { "", "_encode", "_decode" })
                yield return new(header, "", block.Ident + name, payload.Name, payload.Place);
            yield return new(header, "", $"{block.Upper}_LENGTH", payload.Name, payload.Place);
            foreach (var constant in block.Constants)
                yield return new(header, "", constant.Name, constant.Field!.Name, constant.Field.Place);
            foreach (var field in payload.Fields)
            {
                yield return new(header, block.Ident, C.Member(field.Name), field.Name, field.Place);
                foreach (var run in field.Bits)
                    yield return new(header, $"{block.Ident}.{C.Member(field.Name)}", C.Member(run.Name), run.Name, run.Place);
            }
        }
    }
}
