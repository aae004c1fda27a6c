using System.Globalization;
using System.Numerics;
using System.Text;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>
/// What is promised of derived addresses: they come from names, differ, are well formed, and stay when the manifest grows. Random
/// networks, the same ones at every run.
/// </summary>
public sealed class DerivedAddressTests
{
    private const int Networks = 200;

    [Fact]
    public void The_order_of_nodes_and_links_does_not_matter()
    {
        var random = new Random(4001);
        for (var i = 0; i < Networks; i++)
        {
            var plan = Plan.Any(random);
            Assert.Equal(plan.Addresses(), plan.Shuffled(random).Addresses());
        }
    }

    [Fact]
    public void No_two_receive_addresses_are_alike_and_last_bytes_differ_at_each_receiver()
    {
        var random = new Random(4002);
        for (var i = 0; i < Networks; i++)
        {
            var network = Plan.Any(random).Read();
            var pipes = network.Plan.Nodes.SelectMany(node => node.Pipes).Select(pipe => pipe.Address!).ToList();
            Assert.Equal(pipes.Count, pipes.Distinct().Count());
            foreach (var node in network.Plan.Nodes)
                Assert.Equal(node.Pipes.Length, node.Pipes.Select(pipe => pipe.Address!.LowByte).Distinct().Count());
        }
    }

    // The bounds of RL4006's help: 6 to 12 changes in the first 16 bits, 16 or more in 40, in proportion for shorter ones.
    [Fact]
    public void Every_address_is_well_formed()
    {
        var random = new Random(4003);
        var seen = new HashSet<int>();
        for (var i = 0; i < Networks; i++)
        {
            foreach (var address in Plan.Any(random).Read().Hops.Select(hop => hop.Address!))
            {
                seen.Add(address.Width);
                Assert.InRange(address.LevelChanges(16), 6, 12);
                Assert.True(address.LevelChanges() >= 16 * address.Width / 5, $"{address} has {address.LevelChanges()} changes");
                Assert.False(address.AirBytes[0] is 0x55 or 0xAA, $"{address} continues the preamble");
                Assert.True(address.AirBytes.Distinct().Count() > 1, $"{address} repeats one byte");
            }
        }
        Assert.Equal([3, 4, 5], seen.Order());
    }

    // The rule, written down a second time with the hash as RFC 9923 defines it: the first candidate that is well formed, and no other, is the prefix.
    [Theory, InlineData(3), InlineData(4), InlineData(5)]
    public void The_prefix_is_the_first_candidate_that_is_well_formed(int width)
    {
        for (var owner = 0; owner < 2_000; owner++)
        {
            var expected = Enumerable.Range(0, int.MaxValue)
                .Select(counter => Fnv1a($"prefix\ncellar\nnode-{owner}\n{counter}\nradiolint address 2")[..(width - 1)])
                .First(bytes => IsWellFormed(bytes, width));
            Assert.Equal(expected, DerivedAddresses.Prefix("cellar", $"node-{owner}", width));
        }
    }

    // RFC 9923, sections 2 and 5: offset basis and prime of 64 bits, exclusive or before the product; most significant byte first.
    private static byte[] Fnv1a(string text)
    {
        var hash = Encoding.UTF8.GetBytes(text).Aggregate(
            BigInteger.Parse("14695981039346656037", CultureInfo.InvariantCulture),
            (known, octet) => ((known ^ octet) * BigInteger.Parse("1099511628211", CultureInfo.InvariantCulture)) % BigInteger.Pow(2, 64));
        return [.. Convert.FromHexString(((ulong)hash).ToString("X16", CultureInfo.InvariantCulture))];
    }

    private static bool IsWellFormed(byte[] bytes, int width)
    {
        var bits = string.Concat(bytes.Select(one => one.ToString("b8", CultureInfo.InvariantCulture)));
        var first = Changes(bits[..16]);
        // One byte is still to come: it can add eight changes, of which three are counted on.
        return first >= 6 && first <= 12 && Changes(bits) + 3 >= 16 * width / 5
            && bits[..8] != "01010101" && bits[..8] != "10101010" && bytes.Any(one => one != bytes[0]) && bytes.Any(one => one != 0xE7 && one != 0xC2);

        static int Changes(string bits) => bits.Zip(bits.Skip(1)).Count(pair => pair.First != pair.Second);
    }

    // One byte tells the senders of a receiver apart, so a newcomer whose name asks for a byte that is in use moves one of the two. Half
    // of the time it is the older one: about one network in two hundred with three senders.
    [Fact]
    public void One_more_node_leaves_the_others_alone_but_for_a_rare_clash_of_the_last_byte()
    {
        var random = new Random(4004);
        var (kept, moved) = (0, 0);
        for (var i = 0; i < 5 * Networks; i++)
        {
            var plan = Plan.Any(random, mostSenders: 4);
            var before = plan.Addresses();
            var newcomer = Plan.Name(random);
            var grown = plan.With(newcomer).Addresses();
            foreach (var (hop, address) in before)
            {
                if (grown[hop] == address)
                {
                    kept++;
                    continue;
                }
                moved++;
                Assert.Equal(address, grown[$"{newcomer} to {plan.Hub}"]);
                Assert.Equal(address[..^2], grown[hop][..^2]);
            }
        }
        Assert.True(moved > 0 && moved * 200 < kept, string.Create(CultureInfo.InvariantCulture, $"{moved} of {kept + moved} addresses moved"));
    }

    [Fact]
    public void A_node_with_a_receiver_of_its_own_moves_nobody()
    {
        var random = new Random(4005);
        for (var i = 0; i < Networks; i++)
        {
            var plan = Plan.Any(random);
            var before = plan.Addresses();
            var (sender, receiver) = (Plan.Name(random), Plan.Name(random));
            var grown = (plan with { Names = [.. plan.Names, sender, receiver], Links = [.. plan.Links, (sender, receiver)] }).Addresses();
            Assert.All(before, pair => Assert.Equal(pair.Value, grown[pair.Key]));
        }
    }

    [Fact]
    public void A_broadcast_keeps_its_address_when_one_more_node_listens()
    {
        const string link = "- { from: hub, to: [far], payload: order, broadcast: true, acknowledge: false }";
        var before = SmallNetwork.Read(SmallNetwork.With(links: $"  {link}"));
        var after = SmallNetwork.Read(SmallNetwork.With(links: $"  {link}").Replace("[far]", "[far, shed]", StringComparison.Ordinal)
            .Replace("links:", "  shed: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal));
        Assert.Equal(Of(before), Of(after));
        Assert.Single(after.Hops.Where(hop => hop.Link.IsBroadcast).Select(hop => hop.Address).Distinct());

        static Address? Of(Network network) => network.Hops.First(hop => hop.Link.IsBroadcast).Address;
    }

    [Fact]
    public void What_is_written_is_not_derived_for_another()
    {
        var first = SmallNetwork.Read(SmallNetwork.With());
        var derived = first.Hops[0].Address!;
        // The address that `far` had, now written for a second sender: `far` must give way.
        var second = SmallNetwork.Read(SmallNetwork.With(links: $"  - {{ from: shed, to: hub, payload: order, address: {derived} }}")
            .Replace("links:", "  shed: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal));
        Assert.Equal(2, second.Hops.Select(hop => hop.Address!.LowByte).Distinct().Count());
        Assert.Equal(derived, second.Hops[1].Address);
    }

    private sealed record Plan(string Hub, int Width, IReadOnlyList<string> Names, IReadOnlyList<(string From, string To)> Links)
    {
        private const string Letters = "abcdefghijklmnopqrstuvwxyz";
        private const string Digits = "0123456789";

        public static string Name(Random random) =>
            "n" + new string(random.GetItems<char>(Letters, random.Next(2, 9))) + new string(random.GetItems<char>(Digits, 2));

        public static Plan Any(Random random, int mostSenders = 5)
        {
            var hub = Name(random);
            var senders = Enumerable.Range(0, random.Next(1, mostSenders + 1)).Select(_ => Name(random)).Distinct().ToList();
            var links = senders.Select(sender => (sender, hub)).ToList();
            if (random.Next(2) == 0)
                links.Add((hub, senders[0]));
            return new(hub, random.Next(3, 6), [hub, .. senders], links);
        }

        public Plan With(string sender) => this with { Names = [.. Names, sender], Links = [.. Links, (sender, Hub)] };

        public Plan Shuffled(Random random) => this with { Names = Mixed(Names, random), Links = Mixed(Links, random) };

        public Network Read()
        {
            var nodes = string.Concat(Names.Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\n"));
            var links = string.Concat(Links.Select(link => $"  - {{ from: {link.From}, to: {link.To}, payload: reading }}\n"));
            return SmallNetwork.Read(string.Create(
                CultureInfo.InvariantCulture,
                $"radiolint: 1\nnetwork: {Hub}\nair: {{ channel: 74, address-width: {Width} }}\nnodes:\n{nodes}links:\n{links}payloads: {{ reading: {{ count: uint8 }} }}\n"));
        }

        public SortedDictionary<string, string> Addresses() =>
            new(Read().Hops.ToDictionary(hop => hop.Label, hop => $"{hop.Address}"), StringComparer.Ordinal);

        private static T[] Mixed<T>(IEnumerable<T> items, Random random)
        {
            var mixed = items.ToArray();
            random.Shuffle(mixed);
            return mixed;
        }
    }
}
