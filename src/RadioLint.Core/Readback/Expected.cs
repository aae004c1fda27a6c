using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Readback;

/// <summary>What a register may hold.</summary>
/// <param name="Legal">All values in SPI order, the planned one first.</param>
/// <param name="Mask">The bits that are compared; of an address all.</param>
public sealed record ExpectedRegister(byte Address, ImmutableArray<ImmutableArray<byte>> Legal, byte Mask)
{
    public ImmutableArray<byte> Planned => Legal[0];

    /// <summary>True when a listing shows one of the values, as far as it shows the register.</summary>
    public bool Fits(ListedRegister listed) => Legal.Any(value => IsAlike(value, listed.Bytes, Mask));

    /// <summary>Over as many bytes as both have.</summary>
    public static bool IsAlike(ImmutableArray<byte> one, ImmutableArray<byte> other, byte mask)
    {
        for (var i = 0; i < Math.Min(one.Length, other.Length); i++)
        {
            if (((one[i] ^ other[i]) & mask) != 0)
                return false;
        }
        return true;
    }
}

/// <summary>
/// What a radio must hold while its node's program runs. Registers that the plan leaves free are not among them; what the program changes from role to role
/// has several legal values, or is left out of the comparison.
/// </summary>
public sealed class Expected
{
    private const byte PrimRx = 0x01;
    private const byte PwrUp = 0x02;
    private const byte Pipe0 = 0x01;

    private readonly SortedDictionary<byte, ExpectedRegister> registers = [];

    private Expected()
    {
    }

    public IEnumerable<ExpectedRegister> Registers => registers.Values;

    public ExpectedRegister? this[byte address] => registers.TryGetValue(address, out var one) ? one : null;

    /// <summary>By the plan of a node; null while that is not complete.</summary>
    public static Expected? Of(NodePlan plan) => plan.Image is { } image && plan.Node.Part is { } part
        ? Of(plan, part, image.Frames.Where(frame => frame.Register is not null).Select(frame => (frame.Register!.Value, frame.Data)))
        : null;

    /// <summary>By frames that were issued for a node, each as hex; null when one is none.</summary>
    public static Expected? Of(NodePlan plan, RadioPart part, IEnumerable<string> frames)
    {
        var written = new List<(byte, ImmutableArray<byte>)>();
        foreach (var frame in frames)
        {
            if (Hex.Read(frame) is not { } bytes)
                return null;
            if (bytes[0] is >= 0x20 and < 0x40 && bytes.Length > 1)
                written.Add(((byte)(bytes[0] & 0x1F), bytes.RemoveAt(0)));
        }
        return Of(plan, part, written);
    }

    private static Expected Of(NodePlan plan, RadioPart part, IEnumerable<(byte Register, ImmutableArray<byte> Data)> written)
    {
        var expected = new Expected();
        foreach (var (address, data) in written.Where(one => !part.Live.Contains(RegisterMap.NameOf(one.Register), StringComparer.Ordinal)))
        {
            var name = RegisterMap.NameOf(address);
            var mask = RegisterMap.IsWide(address) ? 0xFF : ~(part.FreeBitsOf(name) | part.ZeroBitsOf(name) | Changing(plan, address));
            expected.registers[address] = new(address, ImmutableArray.Create(data).AddRange(Others(plan, address)), (byte)mask);
        }
        return expected;
    }

    // Bits that differ from role to role, or from rest to work.
    private static int Changing(NodePlan plan, byte address)
    {
        var (sends, listens) = (!plan.Sends.IsEmpty, plan.Listens);
        var sharesPipe0 = sends && plan.Pipes.Any(pipe => pipe.Number == 0);
        return address switch
        {
            Radio.Registers.Config => (sends && listens ? PrimRx : 0) | (plan.Node.Sleep is { Radio: null or { Value: RadioRest.PowerDown } } ? PwrUp : 0),
            Radio.Registers.EnRxAddr when plan.SendsAcknowledged && listens => Pipe0,
            Radio.Registers.EnAa or Radio.Registers.Dynpd when sharesPipe0 => Pipe0,
            _ => 0,
        };
    }

    // A sender's pipe 0 holds where its acknowledgements come to, or what it listens on meanwhile.
    private static IEnumerable<ImmutableArray<byte>> Others(NodePlan plan, byte address) => address switch
    {
        Radio.Registers.TxAddr => plan.Sends.Select(hop => hop.Address).OfType<Address>().Select(one => one.RegisterBytes),
        Radio.Registers.RxAddrP0 => plan.Sends.Where(hop => hop.IsAcknowledged).Select(hop => hop.Address)
            .Concat(plan.Pipes.Where(pipe => pipe.Number == 0).Select(pipe => pipe.Address)).OfType<Address>().Select(one => one.RegisterBytes),
        _ => [],
    };
}

/// <summary>What a radio holds after power-on, by its data sheet.</summary>
public static class PowerOn
{
    /// <summary>True when every register that keeps its value holds that of power-on, as far as the listing shows them.</summary>
    public static bool Fits(Listing listing, RadioPart part) =>
        Static(listing, part).All(one => ExpectedRegister.IsAlike(Reset(part, one.Address), one.Bytes, Mask(part, one)));

    /// <summary>A register's value at power-on in SPI order; empty when none is stated.</summary>
    public static ImmutableArray<byte> Reset(RadioPart part, byte address) =>
        part.RegistersReset.FirstOrDefault(each => each.Address == address)?.Reset.LeastFirst() ?? ImmutableArray<byte>.Empty;

    /// <summary>Registers of a listing whose value does not change by itself.</summary>
    public static IEnumerable<ListedRegister> Static(Listing listing, RadioPart part) => listing.Registers.Where(one =>
        !part.Live.Contains(one.Name, StringComparer.Ordinal) && (one.Address < part.TestRegisters.First || one.Address > part.TestRegisters.Last));

    private static byte Mask(RadioPart part, ListedRegister one) => RegisterMap.IsWide(one.Address) ? (byte)0xFF : (byte)~part.FreeBitsOf(one.Name);
}
