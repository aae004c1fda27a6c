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
    private readonly record struct Use(string Scope, string Name, string From, Place Place);

    public static IEnumerable<Finding> Clashes(IReadOnlyList<(NodeFacts Facts, NodeHeader Header)> headers)
    {
        // By the header's position alone: there are tens of thousands of names, and hardly ever a clash.
        var firstIn = new Dictionary<(string Scope, string Name), int>();
        for (var i = 0; i < headers.Count; i++)
        {
            foreach (var use in Of(headers[i]))
            {
                if (firstIn.TryAdd((use.Scope, use.Name), i))
                    continue;
                var j = firstIn[(use.Scope, use.Name)];
                // Two nodes of one file are RL8204's to say.
                if (i != j && headers[i].Header.FileName == headers[j].Header.FileName)
                    continue;
                var first = Of(headers[j]).First(other => (other.Scope, other.Name) == (use.Scope, use.Name));
                yield return UnusableName.SameIdentifier(use.Place, use.From, first.Place, first.From, use.Name);
            }
        }
    }

    private static IEnumerable<Use> Of((NodeFacts Facts, NodeHeader Header) one)
    {
        var (facts, header) = one;
        var node = facts.Node;
        Use OfNode(string name) => new("", name, node.Name, node.NamePlace);
        yield return OfNode($"{C.Upper(header.Ident)}_RADIO_H");
        foreach (var constant in header.Identity.Concat(header.Planned).Concat(header.States).Concat(header.Pins.Constants))
            yield return OfNode(constant.Name);
        foreach (var function in new[] { "configure", "verify", "listen", "frames", "listen_frames", "link_start" })
            yield return OfNode($"{header.Ident}_{function}");
        foreach (var aim in header.Aims)
        {
            yield return OfNode(aim.Name);
            yield return OfNode(aim.Table.Name);
        }
        foreach (var name in header.Sends.Select(sending => sending.Name).Concat(header.Answers.Select(answering => answering.Name)))
            yield return OfNode(name);
        foreach (var (group, link) in header.Links.Zip(facts.Outgoing.Concat(facts.Answers).Concat(facts.Incoming).Concat(facts.Returned)))
        {
            foreach (var constant in group.Constants)
                yield return new("", constant.Name, link.Payload.Name, link.Hop.Link.Place);
        }
        foreach (var (block, (payload, _)) in header.Payloads.Zip(facts.Payloads))
        {
            foreach (var name in new[] { "", "_encode", "_decode" })
                yield return new("", block.Ident + name, payload.Name, payload.Place);
            yield return new("", $"{block.Upper}_LENGTH", payload.Name, payload.Place);
            foreach (var constant in block.Constants)
                yield return new("", constant.Name, constant.Field!.Name, constant.Field.Place);
            foreach (var field in payload.Fields)
            {
                yield return new(block.Ident, C.Member(field.Name), field.Name, field.Place);
                foreach (var run in field.Bits)
                    yield return new($"{block.Ident}.{C.Member(field.Name)}", C.Member(run.Name), run.Name, run.Place);
            }
        }
    }
}
