using System.Collections.Immutable;
using RadioLint.Binding;
using RadioLint.Readback;
using RadioLint.Text;

namespace RadioLint.Starting;

/// <summary>What registers cannot tell and the user says.</summary>
/// <param name="Network">Its name.</param>
/// <param name="Region">Country code; null leaves it out.</param>
/// <param name="Board">The profile of every node.</param>
public sealed record StartTerms(string Network, string? Region, string Board);

/// <summary>A manifest made from what radios hold.</summary>
/// <param name="Text">YAML.</param>
/// <param name="Nodes">How many nodes it has, those that stand for receivers outside the dump left out.</param>
/// <param name="Remarks">What could not be carried over, one line each; the manifest has them as comments too.</param>
public sealed record StartedManifest(string Text, int Nodes, ImmutableArray<string> Remarks);

/// <summary>From register listings of nodes that run to a manifest that plans what they hold.</summary>
public static class StartFromDump
{
    /// <summary>The manifest; null when no listing holds a radio's registers.</summary>
    /// <param name="nodes">By their names in the manifest, each with its last whole listing.</param>
    public static StartedManifest? Of(IEnumerable<(string Name, Listing Listing)> nodes, StartTerms terms)
    {
        var remarks = new List<string>();
        var radios = new List<HeldRadio>();
        foreach (var (name, listing) in nodes)
        {
            if (HeldRadio.IsSilent(listing))
                remarks.Add($"no radio answered at `{name}`: every byte reads the same, and it is left out");
            else
                radios.Add(new(name, listing));
        }
        if (radios.Count == 0)
            return null;
        radios = InOneOrder(radios);
        var text = new DumpManifest(radios, terms);
        var differences = Differences(text.Write(new(StringComparer.Ordinal)), radios);
        remarks.AddRange(differences.SelectMany(one => one.Value));
        return new(text.Write(differences), radios.Count, ImmutableArray.CreateRange(remarks));
    }

    // Programs print the bytes of an address from either end. A number begins with the high byte as a rule, bytes with the low one; where senders and receivers meet the
    // other way round, it is that.
    private static List<HeldRadio> InOneOrder(List<HeldRadio> radios)
    {
        radios = radios.ConvertAll(radio => radio.Listing.IsReport ? radio : new(radio.Name, radio.Listing.In(Usual(radio.Listing))));
        for (var i = 0; i < radios.Count; i++)
        {
            if (radios[i].Listing.IsReport)
                continue;
            var turned = radios.ToList();
            turned[i] = new(radios[i].Name, radios[i].Listing.In(Usual(radios[i].Listing) is AddressOrder.Air ? AddressOrder.Spi : AddressOrder.Air));
            if (Meetings(turned) > Meetings(radios))
                radios = turned;
        }
        return radios;
    }

    private static AddressOrder Usual(Listing listing) =>
        listing.Registers.Any(one => RegisterMap.IsWide(one.Address) && one.IsNumber) ? AddressOrder.Air : AddressOrder.Spi;

    private static int Meetings(List<HeldRadio> radios) => radios.Sum(one => one.Target is null ? 0 : radios.Count(other => other != one && other.Pipes.Any(pipe => pipe.Address.Equals(one.Target))));

    // What the plan of the manifest would have otherwise, by node: as `readback` would tell it.
    private static Dictionary<string, List<string>> Differences(string text, List<HeldRadio> radios)
    {
        var differences = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        var network = ManifestReader.Read(new SourceText("started.radio.yaml", text), _ => null, []);
        foreach (var radio in radios)
        {
            var plan = network?.Plan.Nodes.FirstOrDefault(one => one.Node.Name == radio.Name);
            var said = plan is null || Expected.Of(plan) is not { } expected
                ? new List<string> { $"what `{radio.Name}` holds makes no plan" }
                : [.. ObservedRadio.DifferencesOf(radio.Listing, expected).Select(one =>
                    $"{RegisterMap.NameOf(one.Address)} of `{radio.Name}` holds {Hex.Number(one.Listed.Bytes)}; this manifest plans {Hex.Number(one.Expected.Planned)}")];
            if (said.Count > 0)
                differences.Add(radio.Name, said);
        }
        return differences;
    }
}
