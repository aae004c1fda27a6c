using System.Collections.Immutable;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>In which order a listing prints the bytes of an address.</summary>
public enum AddressOrder
{
    /// <summary>As SPI carries them: low byte first.</summary>
    Spi,

    /// <summary>As they go on air, and as a number is written: high byte first.</summary>
    Air,
}

/// <summary>What one register held.</summary>
/// <param name="Printed">The bytes in the order in which they are printed.</param>
/// <param name="Place">Of the value.</param>
public sealed record ListedRegister(byte Address, ImmutableArray<byte> Printed, Place Place)
{
    /// <summary>True for an address printed as one number, which begins with the high byte unless it is a dump of memory.</summary>
    public bool IsNumber { get; init; }

    /// <summary>The bytes in SPI order.</summary>
    public ImmutableArray<byte> Bytes { get; init; } = Printed;

    public string Name => RegisterMap.NameOf(Address);

    /// <summary>The only byte, or the first in SPI order.</summary>
    public byte Value => Bytes[0];
}

/// <summary>The registers of one radio at one moment.</summary>
public sealed class Listing
{
    private readonly SortedDictionary<byte, ListedRegister> registers = [];

    /// <summary>True for one of our own reports, whose addresses are in SPI order; false for a listing of another program.</summary>
    public required bool IsReport { get; init; }

    /// <summary>How often the node's program had started before: listings of one run may be compared.</summary>
    public required int Run { get; init; }

    /// <summary>True once its end was told and as many registers had come.</summary>
    public bool IsComplete { get; internal set; }

    /// <summary>In the order of addresses.</summary>
    public IEnumerable<ListedRegister> Registers => registers.Values;

    public int Count => registers.Count;

    public ListedRegister? this[byte address] => registers.TryGetValue(address, out var one) ? one : null;

    /// <summary>Where to look first: the first register as printed.</summary>
    public Place Place => registers.Values.OrderBy(one => one.Place.Source.FirstLine).ThenBy(one => one.Place.Start).First().Place;

    /// <summary>Where it ends.</summary>
    public int LastLine => registers.Values.Max(one => one.Place.Source.FirstLine);

    /// <summary>True when the register was not in it yet.</summary>
    internal bool TryAdd(ListedRegister one)
    {
        if (registers.ContainsKey(one.Address))
            return false;
        registers.Add(one.Address, one);
        return true;
    }

    /// <summary>The same listing with the bytes of its addresses taken in an order.</summary>
    public Listing In(AddressOrder order)
    {
        var listing = new Listing { IsReport = IsReport, Run = Run, IsComplete = IsComplete };
        foreach (var one in registers.Values)
        {
            var isTurned = order is AddressOrder.Air && RegisterMap.IsWide(one.Address);
            listing.TryAdd(one with { Bytes = isTurned ? ImmutableArray.CreateRange(one.Printed.Reverse()) : one.Printed });
        }
        return listing;
    }
}
