using System.Globalization;
using System.Text;
using CsCheck;
using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Text;

namespace RadioLint.Tests.Planning;

/// <summary>A manifest as maps and lists, so that values can be put into it and its text be made again.</summary>
public sealed class PartialManifest
{
    private sealed class Map : List<KeyValuePair<string, object>>
    {
        public object? Of(string key) => this.FirstOrDefault(pair => pair.Key == key).Value;

        public Map Add(string key, object? value)
        {
            if (value is not null)
                base.Add(new(key, value));
            return this;
        }

        public void Set(string key, string value)
        {
            var at = key.IndexOf('.', StringComparison.Ordinal);
            var (head, rest) = at < 0 ? (key, "") : (key[..at], key[(at + 1)..]);
            var index = FindIndex(pair => pair.Key == head);
            if (rest.Length == 0)
            {
                if (index >= 0)
                    this[index] = new(head, value);
                else
                    Add(head, value);
                return;
            }
            if (index < 0)
                base.Add(new(head, new Map()));
            ((Map)this[index < 0 ? Count - 1 : index].Value).Set(rest, value);
        }

        public override string ToString() => $"{{ {string.Join(", ", this.Select(pair => $"{pair.Key}: {pair.Value}"))} }}";
    }

    private readonly Map air = [];
    private readonly Map nodes = [];
    private readonly List<Map> links = [];
    private string head = "";
    private readonly Map payloads = [];

    /// <summary>A star, sometimes with links beside it; what each node and link states is drawn.</summary>
    /// <param name="entries">Senders, the hub left out.</param>
    /// <param name="members">The most nodes of an entry.</param>
    /// <param name="isNarrow">Leaves few channels.</param>
    public static PartialManifest Draw(PCG dice, int entries, int members, bool isNarrow = false)
    {
        var drawn = new PartialManifest();
        drawn.DrawAir(dice, isNarrow);
        var power = Below(dice, 4) == 0;
        drawn.AddNode(dice, "hub", "esp32", "{ ce: GPIO27, csn: GPIO5 }", 1, power);
        for (var i = 0; i < entries; i++)
            drawn.AddNode(dice, $"far{(char)('a' + (i / 26))}{(char)('a' + (i % 26))}", "atmega328p", "{ ce: D9, csn: D10 }", 1 + Below(dice, members), power);
        for (var i = 0; i < entries; i++)
            drawn.AddLink(dice, drawn.nodes[i + 1].Key, "hub", isSide: false);
        if (entries > 2 && Below(dice, 3) == 0 && drawn.nodes.Skip(1).Take(2).All(node => ((Map)node.Value).Of("each") is null))
            drawn.AddLink(dice, drawn.nodes[1].Key, drawn.nodes[2].Key, isSide: true);
        return drawn;
    }

    public string Text()
    {
        var text = new StringBuilder("radiolint: 1\nnetwork: orchard\n").Append(head).Append(CultureInfo.InvariantCulture, $"air: {air}\nnodes:\n");
        foreach (var (name, node) in nodes)
            text.Append(CultureInfo.InvariantCulture, $"  {name}: {node}\n");
        text.Append("links:\n");
        foreach (var link in links)
            text.Append(CultureInfo.InvariantCulture, $"  - {link}\n");
        text.Append("payloads:\n");
        foreach (var (name, payload) in payloads)
            text.Append(CultureInfo.InvariantCulture, $"  {name}: {payload}\n");
        return text.ToString();
    }

    /// <summary>The same with its nodes and links in the opposite order.</summary>
    public PartialManifest Turned()
    {
        var turned = new PartialManifest { head = head };
        turned.payloads.AddRange(payloads);
        turned.air.AddRange(air);
        turned.nodes.AddRange(nodes.AsEnumerable().Reverse());
        turned.links.AddRange(links.AsEnumerable().Reverse());
        return turned;
    }

    /// <summary>Every choice at the place that it names.</summary>
    public void Apply(Network network, IEnumerable<Choice> choices)
    {
        foreach (var choice in choices)
        {
            var (map, key) = choice.Target switch
            {
                null when choice.Key.StartsWith("air.", StringComparison.Ordinal) => (air, choice.Key[4..]),
                Node node => ((Map)nodes.Of(node.Entry)!, choice.Key),
                Link link => (links[network.Links.IndexOf(link)], choice.Key),
                Payload payload => ((Map)payloads.Of(payload.Name)!, choice.Key),
                _ => throw new InvalidOperationException(choice.Key),
            };
            map.Set(key, choice.Value);
        }
    }

    private static int Below(PCG dice, int limit) => (int)dice.Next((uint)limit);

    private static string Of(PCG dice, params string[] words) => words[Below(dice, words.Length)];

    private void DrawAir(PCG dice, bool isNarrow)
    {
        head = $"region: {Of(dice, "GB", "DE", "US", "RU", "GB")}\n";
        if (Below(dice, 3) > 0)
            head += $"setting: {Of(dice, "open", "house", "office", "hall")}\n";
        air.Add("channel", Below(dice, 5) == 0 ? Of(dice, "40", "76", "24") : "open");
        air.Add("rate", Below(dice, 3) switch { 0 => "open", 1 => Of(dice, "250 kbps", "1 Mbps", "2 Mbps"), _ => null });
        if (isNarrow)
            air.Add("avoid", Of(dice, "[4..73, 77..125]", "[0..22, 26..125]", "[0..46, 52..125]", "[0..71, 78..125]"));
        else if (Below(dice, 4) == 0)
            air.Add("avoid", Of(dice, "[12, 40..60]", "[70..79]", "[0..20, 75]"));
        if (Below(dice, 5) == 0)
            air.Add("retry", new Map().Add("limit", Of(dice, "3", "5")));
        var neighbours = new Map();
        if (Below(dice, 2) == 0)
            neighbours.Add("wifi", Of(dice, "[1]", "[6]", "[1, 6]", "[6, 11]", "[{ channel: 6, distance: 8..12 m }]"));
        if (Below(dice, 3) == 0)
            neighbours.Add("bluetooth-le", "true");
        if (Below(dice, 4) == 0)
            neighbours.Add("ieee-802.15.4", Of(dice, "[26]", "[15, 25]"));
        if (Below(dice, 4) == 0)
            neighbours.Add("networks", Of(dice, "[{ network: mill, channel: 76, rate: 1 Mbps }]", "[{ network: mill, channel: 50, rate: 250 kbps, distance: 60 m }]"));
        if (neighbours.Count > 0)
            air.Add("neighbours", neighbours);
        payloads.Add("reading", "{ weight: uint16, sender: uint8, sequence: uint8 }");
        payloads.Add("record", new Map().Add("fields", "{ sender: uint8, weight: uint32, trace: bytes 20, sequence: uint8 }").Add("order", "open"));
    }

    private void AddNode(PCG dice, string name, string board, string pins, int members, bool writesPower)
    {
        var node = new Map();
        if (members > 1)
            node.Add("each", $"1..{members.ToString(CultureInfo.InvariantCulture)}");
        node.Add("board", board).Add("pins", pins);
        var isAmplified = Below(dice, 6) == 0;
        node.Add("radio", isAmplified ? "{ front-end: RFX2401C, antenna: { kind: external, gain: 2 dBi } }" : $"{{ antenna: {Of(dice, "printed", "whip", "printed")} }}");
        if (Below(dice, 5) > 0)
            node.Add("height", Of(dice, "1 m", "2 m", "4 m"));
        if (Below(dice, 4) == 0)
            node.Add("battery", "{ cells: 2 x AA alkaline }").Add("supply", "{ from: battery }").Add("runs-for", "1 year");
        if (writesPower || Below(dice, 8) == 0)
            node.Add("power", isAmplified ? "-18 dBm" : Of(dice, "0 dBm", "-6 dBm", "-12 dBm", "-18 dBm")); // A lawful one: what law forbids no choice mends.
        if (Below(dice, 10) == 0)
            node.Add("retry", new Map().Add("delay", "2 ms"));
        nodes.Add(name, node);
    }

    private void AddLink(PCG dice, string from, string to, bool isSide)
    {
        var link = new Map().Add("from", from).Add("to", to).Add("payload", isSide ? "reading" : Of(dice, "reading", "reading", "reading", "record"));
        if (Below(dice, 6) > 0)
            link.Add("every", Of(dice, "1 s", "10 s", "1 min", "10 min", "200 ms"));
        if (Below(dice, 8) > 0)
            link.Add("distance", Of(dice, "3 m", "3 m", "5..8 m", "5 m", "8 m", "12 m", "12 m", "20 m", "25 m", "40 m", "60..90 m", "150 m"));
        if (Below(dice, 4) == 0)
            link.Add("through", Of(dice, "[1 x brick wall]", "[vegetation 4 m]", "[2 x plasterboard wall]"));
        links.Add(link);
    }
}
