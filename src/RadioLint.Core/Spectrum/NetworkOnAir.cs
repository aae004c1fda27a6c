using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>An address that a network answers to.</summary>
/// <param name="Place">Where it is stated; the link that needs it when it is derived.</param>
/// <param name="Owner">Whose it is, for messages.</param>
public sealed record AddressOnAir(Address Address, Place Place, string Owner);

/// <summary>A network as its neighbours meet it: one of these for each carrier and rate that its nodes use.</summary>
/// <param name="Rate">Null when nobody says.</param>
/// <param name="Addresses">Those that are known.</param>
public sealed record NetworkOnAir(Frequency Carrier, DataRate? Rate, ImmutableArray<AddressOnAir> Addresses)
{
    /// <summary>A network of the manifest, by rising carrier, then by rate; its receivers' addresses in the order of its nodes' names.</summary>
    public static ImmutableArray<NetworkOnAir> Of(Network network) => ImmutableArray.CreateRange(
        from plan in network.Plan.Nodes
        where plan.Node is { Part: not null, Air: { ChosenChannel: not null, ChosenRate: not null } }
        group plan by (Carrier: plan.Node.Part!.Channel.Carrier(plan.Node.Air.ChosenChannel!.Value), Rate: plan.Node.Air.ChosenRate!.Value) into air
        orderby air.Key.Carrier, air.Key.Rate
        select new NetworkOnAir(air.Key.Carrier, air.Key.Rate, ImmutableArray.CreateRange(
            from plan in air.OrderBy(plan => plan.Node.Name, NaturalOrder.Instance)
            from pipe in plan.Pipes
            where pipe.Address is { Width: >= Address.Narrowest }
            select new AddressOnAir(pipe.Address!, pipe.Place, plan.Node.Name))));
}

/// <summary>What two networks of this kind do to each other within reach.</summary>
public static class Coexistence
{
    /// <summary>
    /// The least distance of two carriers. Below it a receiver needs the wanted signal to be the stronger one: +8 dB at 1 MHz at 1 Mbps,
    /// +4 dB at 2 MHz at 2 Mbps (nRF24L01+ Product Specification 1.0, Table 9). At 250 kbps -12 dB are promised at 1 MHz, but two crystals of
    /// 60 ppm may stand 298 kHz apart (Table 11), so it is held to the same.
    /// </summary>
    public static Frequency LeastSpacing(DataRate rate) => Frequency.FromMegahertz(rate is DataRate.Mbps2 ? 4 : 2);

    /// <summary>The distance to choose: neighbours may be 30 dB stronger, 24 dB at 2 Mbps (same table).</summary>
    public static Frequency GoodSpacing(DataRate rate) => Frequency.FromMegahertz(rate is DataRate.Mbps2 ? 6 : 3);

    public static Frequency Distance(NetworkOnAir one, NetworkOnAir other) =>
        one.Carrier > other.Carrier ? one.Carrier - other.Carrier : other.Carrier - one.Carrier;

    /// <summary>What the two need between their carriers: the wider of what their rates need; a rate that nobody says asks for nothing of its own.</summary>
    public static Frequency Needed(NetworkOnAir one, NetworkOnAir other, Func<DataRate, Frequency> spacing)
    {
        var (a, b) = (one.Rate is { } first ? spacing(first) : default, other.Rate is { } second ? spacing(second) : default);
        return a > b ? a : b;
    }

    /// <summary>True when one of the two must be the stronger to be heard beside the other; the limit itself is far enough.</summary>
    public static bool IsTooClose(NetworkOnAir one, NetworkOnAir other) => Distance(one, other) < Needed(one, other, LeastSpacing);

    /// <summary>
    /// Two addresses of equal width that begin alike on one carrier, the same address before others; null when there are none, or when the two
    /// networks cannot read each other's packets because their rates differ.
    /// </summary>
    public static (AddressOnAir One, AddressOnAir Other)? SharedPrefix(NetworkOnAir one, NetworkOnAir other)
    {
        if (one.Carrier != other.Carrier || (one.Rate is { } a && other.Rate is { } b && a != b))
            return null;
        var (whole, prefixes) = (new Dictionary<Address, AddressOnAir>(), new Dictionary<Address, AddressOnAir>());
        foreach (var each in other.Addresses)
        {
            whole[each.Address] = each;
            prefixes[PrefixOf(each)] = each;
        }
        (AddressOnAir, AddressOnAir)? alike = null;
        foreach (var each in one.Addresses)
        {
            if (whole.TryGetValue(each.Address, out var same))
                return (each, same);
            if (alike is null && prefixes.TryGetValue(PrefixOf(each), out var near))
                alike = (each, near);
        }
        return alike;
    }

    // As an address of its own, which compares by its bytes, their number among them.
    private static Address PrefixOf(AddressOnAir each) => new(each.Address.Prefix);
}
