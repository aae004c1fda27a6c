using System.Collections.Immutable;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>
/// Listings that programs of any kind print: labelled lines, pairs of address and value, bare bytes in the order of addresses, C arrays. Registers may be
/// missing. Which end of an address is printed first, nothing here can tell.
/// </summary>
internal sealed class PlainListings(string name)
{
    // Fewer may be anything; a name of a register is proof enough.
    private const int FewestPairs = 4;
    private const int FewestBytes = 8;
    private const int MostBytes = 64;

    private readonly ObservedNode found = new("", default);
    private readonly List<List<PlainValue>> bare = [];
    private Listing listing = Fresh();
    private bool isNamed;
    private int bytes;

    /// <summary>Takes the next line.</summary>
    public void Add(LogLine text)
    {
        var line = PlainLine.Read(new SourceText(name, text.Text, text.Number));
        if (line.IsBlank)
        {
            // Between two listings; one may have a blank line inside.
            if (bytes >= BareBytes.OneByteEach)
                EndBlock();
            return;
        }
        if (line.Bare.Count > 0)
        {
            bytes += line.Bare.Count;
            // More than the radio has registers is something else; what comes after it too, to the next line of another kind.
            if (bytes > MostBytes)
                bare.Clear();
            else
                bare.Add(line.Bare);
            return;
        }
        EndBlock();
        foreach (var pair in line.Pairs.Where(pair => pair.Address < RegisterMap.End))
        {
            if (!Assign(pair))
                continue;
            isNamed |= pair.IsNamed;
        }
    }

    /// <summary>The first and the last few.</summary>
    public IReadOnlyList<Listing> End()
    {
        EndBlock();
        EndListing();
        return found.Listings;
    }

    private static Listing Fresh() => new() { IsReport = false, Run = 0, IsComplete = true };

    private void EndListing()
    {
        if (listing.Count >= (isNamed ? 1 : FewestPairs))
            found.Add(listing);
        listing = Fresh();
        isNamed = false;
    }

    private bool Assign(PlainPair pair)
    {
        var hasAny = false;
        foreach (var register in InTurn(pair))
        {
            if (!listing.TryAdd(register))
            {
                EndListing();
                listing.TryAdd(register);
            }
            hasAny = true;
        }
        return hasAny;
    }

    // Values past the first register's belong to those after it, as long as they are written alike.
    private static IEnumerable<ListedRegister> InTurn(PlainPair pair)
    {
        var address = pair.Address;
        for (var i = 0; i < pair.Values.Count && address < RegisterMap.End; address++)
        {
            var value = pair.Values[i];
            if (value.HasPrefix != pair.Values[0].HasPrefix)
                yield break;
            var isWide = RegisterMap.IsWide(address);
            if (!isWide && value.Bytes.Length > 1)
                yield break;
            if (!isWide || value.Bytes.Length > 1)
            {
                yield return Number(address, value);
                i++;
                continue;
            }
            var single = pair.Values.Skip(i).TakeWhile(next => next.Bytes.Length == 1).Take(Model.Address.Widest).ToList();
            yield return Joined(address, single);
            i += single.Count;
        }
    }

    private static ListedRegister Number(byte address, PlainValue value) =>
        new(address, value.Bytes, value.Place) { IsNumber = value.Bytes.Length > 1, Bytes = value.Bytes.Length > 1 ? ImmutableArray.CreateRange(value.Bytes.Reverse()) : value.Bytes };

    private static ListedRegister Joined(byte address, List<PlainValue> values)
    {
        var (first, last) = (values[0].Place, values[values.Count - 1].Place);
        var length = ReferenceEquals(first.Source, last.Source) ? last.End - first.Start : first.Length;
        return new(address, ImmutableArray.CreateRange(values.Select(value => value.Bytes[0])), new(first.Source, first.Start, length));
    }

    private void EndBlock()
    {
        var lines = bare.ToList();
        bare.Clear();
        bytes = 0;
        if (lines.Count == 0)
            return;
        if (ArePairs(lines))
        {
            lines.ForEach(line => Assign(new(line[0].Bytes[0], false, line.GetRange(1, line.Count - 1))));
            return;
        }
        var values = lines.SelectMany(line => line).ToList();
        if (values.Count < FewestBytes)
            return;
        EndListing();
        foreach (var register in BareBytes.InOrder(values))
            listing.TryAdd(register);
        EndListing();
    }

    // Address and value on each line, in rising order.
    private static bool ArePairs(List<List<PlainValue>> lines)
    {
        var before = -1;
        foreach (var line in lines)
        {
            if (line.Count is not (2 or (>= 4 and <= 6)) || line[0].Bytes is not [var address] || address <= before || address >= RegisterMap.End
                || (line.Count > 2 && !RegisterMap.IsWide(address)))
            {
                return false;
            }
            before = address;
        }
        return lines.Count >= FewestPairs;
    }

    /// <summary>Bytes without names, from register 0x00 on.</summary>
    private static class BareBytes
    {
        public const int OneByteEach = 24;
        private const int Features = 2;
        private const int Tests = 4;

        /// <summary>Each register with its bytes; the address width is what SETUP_AW says where the count fits it.</summary>
        public static IEnumerable<ListedRegister> InOrder(List<PlainValue> values)
        {
            // An address as one number counts as many as it has.
            var numbers = values.Exists(value => value.Bytes.Length > 1);
            var told = values.Count > Registers.SetupAw && values[Registers.SetupAw].Bytes is [>= 1 and <= 3 and var code] ? code + 2 : Model.Address.Widest;
            var (width, hasTests) = numbers ? (1, HasTests(values.Count, 1) ?? false) : Shape(values.Count, told);
            var at = 0;
            for (byte address = 0; address < RegisterMap.End && at < values.Count; address++)
            {
                if (address is > 0x17 and < Registers.Dynpd && !hasTests)
                    continue;
                var wide = RegisterMap.IsWide(address);
                if (wide && values[at].Bytes.Length > 1)
                {
                    yield return Number(address, values[at++]);
                    continue;
                }
                var taken = values.GetRange(at, Math.Min(wide ? width : 1, values.Count - at));
                if (taken.Exists(value => value.Bytes.Length > 1))
                    yield break;
                yield return Joined(address, taken);
                at += taken.Count;
            }
        }

        private static (int Width, bool HasTests) Shape(int count, int told)
        {
            foreach (var width in new[] { told, Model.Address.Widest, 1, 4, 3 })
            {
                if (HasTests(count, width) is { } hasTests)
                    return (width, hasTests);
            }
            // Cut short.
            return (told, false);
        }

        // Null when no listing of this width has so many bytes.
        private static bool? HasTests(int count, int width)
        {
            var whole = OneByteEach + (3 * (width - 1));
            return count == whole || count == whole + Features ? false : count == whole + Features + Tests ? true : null;
        }
    }
}
