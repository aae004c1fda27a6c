using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6103: a number at an address where somebody else's firmware may not read it in place.</summary>
public sealed class UnalignedForCore() : Rule(new(
    "RL6103", Severity.Warning, "Unaligned number on a core that faults",
    "an address that is a multiple of the number's size, on Armv6-M (Armv6-M Architecture Reference Manual, A3.2) and the Tensilica L106 (value from memory); "
    + "emitted firmware moves single bytes and is not concerned", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            var placed = payload.Layout().FirstOrDefault(one => one.Field.Kind is FieldKind.Integer or FieldKind.Float or FieldKind.Choice && one.Field.ItemSize > 1 && one.Offset % one.Field.ItemSize != 0);
            if (placed.Field is null || !payload.HasKnownSize || network.HopsOf(payload).SelectMany(hop => new[] { hop.Sender, hop.Receiver }).FirstOrDefault(IsConcerned) is not { } node)
                continue;
            yield return At(
                node, placed.Field.TypePlace,
                $"`{placed.Field.Name}` of {placed.Field.ItemSize} bytes stands at byte {placed.Offset} of `{payload.Name}`: `{node.Label}` stops where its firmware reads it there in place",
                $"copy it out byte by byte in that firmware, or write the fields from the largest type to the smallest") with
            { Related = See(node.NamePlace, $"the node is here") };
        }
    }

    private static bool IsConcerned(Node node) => node is { IsExternal: true, Board: { } board } && Compilers.FaultsUnaligned(board);
}
