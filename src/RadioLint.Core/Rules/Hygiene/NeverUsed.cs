using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8010: a payload or a board of the manifest that nothing uses.</summary>
public sealed class NeverUsed() : Rule(new(
    "RL8010", Severity.Info, "Defined and never used", "own rule: a payload is carried by a link, a board is a node's or another board's", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var board in network.UnusedBoards)
            yield return At(board.Place, $"the board `{board.Text}` is no node's, and no other board is based on it", $"name it at a node, or remove it");
        // A link whose payload nobody defines is most likely a slip in one of the two names.
        if (network.Links.Any(link => link.PayloadName is not null && link.Payload is null))
            yield break;
        var used = new HashSet<string>(network.Links.Select(link => link.Payload?.Name).OfType<string>(), StringComparer.Ordinal);
        // Files that several manifests include may well define more than one of them needs.
        foreach (var payload in network.Payloads.Where(payload => payload.NamePlace.Source == network.Source && !used.Contains(payload.Name)))
            yield return At(payload.NamePlace, $"no link carries the payload `{payload.Name}`", $"add a link that carries it, or remove it");
    }
}
