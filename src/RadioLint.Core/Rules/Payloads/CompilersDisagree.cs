using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6101: a struct that the compilers of two nodes lay out differently.</summary>
public sealed class CompilersDisagree() : Rule(new(
    "RL6101", Severity.Error, "Struct of another size at another compiler",
    "compilers for 32-bit cores align a number of 2, 4 or 8 bytes to its own size, the AVR's to 1 byte (sizeof and offsetof as gcc has them for each core)", "0.1")
{
    Silences = ["RL6102"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            if (payload is not { Natural: { Value: true } natural, HasKnownSize: true } || payload.SizeAt(1) == payload.Size)
                continue;
            var ends = network.HopsOf(payload).SelectMany(hop => new[] { hop.Sender, hop.Receiver }).Distinct().ToList();
            foreach (var node in ends.Where(node => node.Board is { } board && Compilers.WidestAlignment(board) is null))
                yield return Waits(node, "board.family");
            if (ends.Find(node => SizeAt(node, payload) is { } size && size != payload.Size) is not { } odd)
                continue;
            var other = ends.Find(node => SizeAt(node, payload) == payload.Size);
            yield return At(
                odd, natural.Place,
                $"the compiler of `{odd.Label}` lays `{payload.Name}` out in {SizeAt(odd, payload)} bytes, {(other is null ? "natural layout" : $"that of `{other.Label}`")} in {payload.Size}",
                $"use `layout: packed`, where the place of each byte is stated",
                Offer("Use packed layout", natural.Place, "packed")) with
            { Subject = payload };
        }
    }

    private static int? SizeAt(Node node, Payload payload) => node.Board is { } board && Compilers.WidestAlignment(board) is { } widest ? payload.SizeAt(widest) : null;
}
