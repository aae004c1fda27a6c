using RadioLint.Model;

namespace RadioLint.Readback;

/// <summary>Whose plan a listing that names nobody comes nearest to.</summary>
public static class Likeness
{
    /// <summary>The node most of whose registers fit; null when none fits or two fit as well.</summary>
    public static Node? Nearest(Network network, Listing listing)
    {
        var all = network.Nodes.Where(node => !node.IsExternal)
            .Select(node => (Node: node, Fits: Expected.Of(network.Plan.Of(node)) is { } expected ? Fitting(expected, listing) : 0))
            .OrderByDescending(one => one.Fits).Take(2).ToList();
        return all.Count > 0 && all[0].Fits > 0 && (all.Count == 1 || all[0].Fits > all[1].Fits) ? all[0].Node : null;
    }

    // Either order of addresses will do.
    private static int Fitting(Expected expected, Listing listing) => new[] { listing.In(AddressOrder.Spi), listing.In(AddressOrder.Air) }
        .Max(one => one.Registers.Count(register => expected[register.Address]?.Fits(register) ?? false));
}
