using System.Globalization;

namespace RadioLint.Tests.Truth;

/// <summary>
/// Draws networks: plausible ones, ones that are nearly so, and wild ones. A near miss is a plausible network with one thing changed, each kind of change
/// as often as any other.
/// </summary>
public sealed class DraftDraw(ulong seed)
{
    private static readonly string[] Rates = ["250 kbps", "1 Mbps", "2 Mbps"];
    private static readonly string[] Names = ["hub", "far", "mast", "store"];

    private readonly Dice dice = new(seed);

    public Draft Next()
    {
        var plain = Plausible();
        return dice.Below(20) switch
        {
            < 7 => plain,
            < 17 => Change(plain),
            _ => Change(Change(Change(plain))),
        };
    }

    private Draft Plausible()
    {
        var isAcknowledged = dice.Below(4) > 0;
        var width = 3 + dice.Below(3);
        var length = isAcknowledged ? dice.Below(3) : 1 + dice.Below(2);
        var payloads = Enumerable.Range(0, 1 + dice.Below(2)).Select(i => ($"p{i}", 1 + dice.Below(32))).ToList();
        var longest = payloads.Max(payload => payload.Item2);
        var air = new List<(string, string)>
        {
            ("channel", Number(2 + dice.Below(76))),
            ("rate", Rates[dice.Below(3)]),
        };
        if (width != 5)
            air.Add(("address-width", Number(width)));
        if (dice.Below(3) == 0)
            air.Add(("crc", Crc(isAcknowledged ? 1 + dice.Below(2) : dice.Below(3))));
        if (!isAcknowledged)
            air.Add(("acknowledge", "false"));
        if (length == 1)
            air.Add(("payload-length", "exact"));
        else if (length == 2)
            air.Add(("payload-length", $"{Number(longest + dice.Below(33 - longest))} bytes"));
        if (dice.Below(4) == 0)
            air.Add(("retry", $"{{ limit: {Number(1 + dice.Below(15))} }}"));
        var isSlow = air[1].Item2 == "250 kbps";
        var nodes = Enumerable.Range(0, 2 + dice.Below(3)).Select(i => new NodeDraft(Names[i], Part(isSlow), [], [])).ToList();
        var links = new List<LinkDraft>();
        for (var i = 1; i < nodes.Count; i++)
        {
            var up = new LinkDraft(nodes[i].Name, ["hub"], payloads[dice.Below(payloads.Count)].Item1, []);
            links.Add(up);
            if (isAcknowledged && length == 0 && dice.Below(6) == 0)
                links.Add(new("hub", [nodes[i].Name], payloads[dice.Below(payloads.Count)].Item1, [("with", "acknowledgement")]));
            else if (dice.Below(8) == 0)
                links.Add(new("hub", [nodes[i].Name], payloads[dice.Below(payloads.Count)].Item1, []));
        }
        if (nodes.Count > 2 && dice.Below(8) == 0)
            links.Add(new("hub", [.. nodes.Skip(1).Select(node => node.Name)], payloads[0].Item1, isAcknowledged ? [("broadcast", "true"), ("acknowledge", "false")] : [("broadcast", "true")]));
        if (isAcknowledged && dice.Below(6) == 0)
            links[0] = links[0] with { More = [.. links[0].More, ("acknowledge", "false")] };
        return new(air, nodes, links, payloads);
    }

    private string Part(bool isSlow) => dice.Below(8) switch { 0 when !isSlow => "nRF24L01", 1 => "Si24R1", _ => "nRF24L01+" };

    private Draft Change(Draft draft) => dice.Below(32) switch
    {
        0 => Air(draft, "channel", Number(126 + dice.Below(3))),
        1 => Own(draft, ("channel", Number(2 + dice.Below(76)))),
        2 => Own(draft, ("rate", Rates[dice.Below(3)])),
        3 => Air(draft, "address-width", Number(2 + dice.Below(5))),
        4 => Own(draft, ("address-width", Number(3 + dice.Below(3)))),
        5 => Own(draft, ("crc", Crc(dice.Below(3)))),
        6 => Own(draft, ("acknowledge", dice.Below(2) == 0 ? "true" : "false")),
        7 => Own(draft, ("payload-length", Length())),
        8 => Own(draft, ("no-acknowledge", dice.Below(3) == 0 ? "true" : "false"), Unacknowledged),
        9 => Air(draft, "rate", "250 kbps") is var slow ? slow with { Nodes = [.. slow.Nodes.Select((node, i) => i == dice.Below(slow.Nodes.Count) ? node with { Part = "nRF24L01" } : node)] } : draft,
        10 => Air(draft, "retry", $"{{ delay: {Number(250 * (1 + dice.Below(7)))} us, limit: {Number(1 + dice.Below(15))} }}"),
        11 => Link(draft, ("address", Address(draft))),
        12 => TwoLinks(draft),
        13 => Link(draft, ("pipe", Number(dice.Below(7)))),
        14 => Pipes(draft),
        15 => Many(draft),
        16 => Link(draft, ("broadcast", "true"), several: true),
        17 => draft with { Payloads = [.. draft.Payloads.Select((payload, i) => i == 0 ? (payload.Name, 30 + dice.Below(6)) : payload)] },
        18 => Back(draft),
        19 => Air(draft, "payload-length", $"{Number(33 + dice.Below(8))} bytes"),
        20 => Echo(draft),
        21 => Air(Air(draft, "rate", "250 kbps"), "retry", "{ delay: 250 us, limit: 5 }"),
        22 => Slow(draft),
        23 => OwnPipes(draft, otherPrefix: true),
        24 => OwnPipes(draft, otherPrefix: false),
        25 or 26 => Impatient(draft),
        27 => TwoLinks(draft),
        28 => LastByteOnly(draft),
        30 => Closed(draft),
        29 => Air(Air(draft, "acknowledge", "false"), "payload-length", "dynamic"),
        _ => Air(draft, dice.Below(2) == 0 ? "acknowledge" : "payload-length", dice.Below(2) == 0 ? "false" : "dynamic") is var odd && IsOdd(odd) ? draft : odd,
    };

    // A key with a value of the other one's kind is no network at all.
    private static bool IsOdd(Draft draft) => draft.Air.Any(one => one is ("acknowledge", "dynamic") or ("payload-length", "false"));

    private string Length() => dice.Below(3) switch { 0 => "dynamic", 1 => "exact", _ => $"{Number(1 + dice.Below(33))} bytes" };

    private static Draft Unacknowledged(Draft draft, int node) => draft with
    {
        Links = [.. draft.Links.Select(link => link.From == draft.Nodes[node].Name && link.More.All(one => one.Key is not ("acknowledge" or "with")) ? link with { More = [.. link.More, ("acknowledge", "false")] } : link)],
    };

    private Draft Own(Draft draft, (string Key, string Value) setting, Func<Draft, int, Draft>? more = null)
    {
        var at = dice.Below(draft.Nodes.Count);
        var changed = draft with
        {
            Nodes = [.. draft.Nodes.Select((node, i) => i == at ? node with { Air = [.. node.Air.Where(one => one.Key != setting.Key), setting] } : node)],
        };
        return more is null ? changed : more(changed, at);
    }

    private static Draft Air(Draft draft, string key, string value) => draft with { Air = [.. draft.Air.Where(one => one.Key != key), (key, value)] };

    private Draft Link(Draft draft, (string Key, string Value) setting, bool several = false)
    {
        var at = dice.Below(draft.Links.Count);
        return draft with
        {
            Links = [.. draft.Links.Select((link, i) => i != at ? link : link with
            {
                To = several ? [.. draft.Nodes.Select(node => node.Name).Where(name => name != link.From)] : link.To,
                More = [.. link.More.Where(one => one.Key != setting.Key && !(several && one.Key == "with")), setting],
            })],
        };
    }

    // Two links, each to a pipe of the receiver's: prefixes that differ, last bytes that are the same.
    private Draft TwoLinks(Draft draft)
    {
        var (first, second) = (Address(draft), Address(draft));
        var shared = dice.Below(3) switch { 0 => first[..^2] + second[^2..], 1 => second[..^2] + first[^2..], _ => first };
        var pipes = dice.Below(2) == 0;
        var own = draft.Links.Where(link => link.To is ["hub"] && link.More.All(one => one.Key is not ("with" or "address"))).Take(2).ToList();
        return draft with
        {
            Links = [.. draft.Links.Select(link => own.IndexOf(link) switch
            {
                0 => link with { More = [.. link.More, ("address", first), .. pipes ? [("pipe", "1")] : Array.Empty<(string, string)>()] },
                1 => link with { More = [.. link.More, ("address", shared), .. pipes ? [("pipe", Number(1 + dice.Below(3)))] : Array.Empty<(string, string)>()] },
                _ => link,
            })],
        };
    }

    private Draft Pipes(Draft draft)
    {
        var number = dice.Below(6);
        var value = dice.Below(4) switch { 0 => "closed", 1 => "0x" + Hex(1), _ => Address(draft) };
        var at = dice.Below(draft.Nodes.Count);
        return draft with
        {
            Nodes = [.. draft.Nodes.Select((node, i) => i == at ? node with { Pipes = [.. node.Pipes.Where(one => one.Key != Number(number)), (Number(number), value)] } : node)],
        };
    }

    // Up to eight senders at one receiver, each with an address of its own.
    private Draft Many(Draft draft)
    {
        var more = Enumerable.Range(0, 4 + dice.Below(4)).Select(i => $"n{i}").ToList();
        return draft with
        {
            Nodes = [.. draft.Nodes.Where(node => !node.Name.StartsWith('n')), .. more.Select(name => new NodeDraft(name, "nRF24L01+", [], []))],
            Links = [.. draft.Links.Where(link => !link.From.StartsWith('n')), .. more.Select(name => new LinkDraft(name, ["hub"], draft.Payloads[0].Name, []))],
        };
    }

    // A payload in acknowledgements that may not come.
    private Draft Back(Draft draft)
    {
        var link = draft.Links[dice.Below(draft.Links.Count)];
        return link.To.Count > 1 || draft.Links.Any(other => other.From == link.To[0] && other.To.Contains(link.From))
            ? draft
            : draft with { Links = [.. draft.Links, new(link.To[0], [link.From], draft.Payloads[^1].Name, [("with", "acknowledgement")])] };
    }

    // Two receivers that hold one address: both acknowledge.
    private Draft Echo(Draft draft)
    {
        var at = dice.Below(draft.Links.Count);
        var link = draft.Links[at];
        var other = draft.Nodes.Select(node => node.Name).FirstOrDefault(name => name != link.From && !link.To.Contains(name) && !draft.Links.Any(one => one.To.Contains(name)));
        if (other is null || link.To.Count > 1 || link.More.Any(one => one.Key is "with" or "acknowledge" or "address"))
            return draft;
        var address = Address(draft);
        return draft with
        {
            Links = [.. draft.Links.Select((one, i) => i == at ? one with { More = [.. one.More, ("address", address)] } : one), link with { To = [other], More = [.. link.More, ("address", address)] }],
        };
    }

    // Written delays at the edge of what the data sheet's table allows.
    private Draft Slow(Draft draft) => Air(Air(draft, "rate", Rates[1 + dice.Below(2)]), "retry", $"{{ delay: {Number(250 * (1 + dice.Below(3)))} us, limit: {Number(1 + dice.Below(15))} }}");

    // A long payload rides back, and the sender does not wait for it.
    private Draft Impatient(Draft draft)
    {
        if (draft.Air.Any(one => one.Key is "acknowledge" or "payload-length"))
            return draft;
        var rate = dice.Below(3);
        return new(
            [.. draft.Air.Where(one => one.Key is not ("rate" or "retry")), ("rate", Rates[rate]), ("retry", $"{{ delay: {Number(rate == 0 ? 500 : 250)} us, limit: 5 }}")],
            [.. draft.Nodes.Take(2).Select(node => node with { Part = "nRF24L01+", Air = [], Pipes = [] })],
            [new(draft.Nodes[1].Name, ["hub"], "p0", []), new("hub", [draft.Nodes[1].Name], "back", [("with", "acknowledgement")])],
            [("p0", 1 + dice.Below(32)), ("back", 6 + dice.Below(27))]);
    }

    // Pipe 2 or higher with its last byte, and no pipe 1 to take the rest from.
    private Draft LastByteOnly(Draft draft) => draft with
    {
        Nodes = [.. draft.Nodes.Select((node, i) => i == draft.Nodes.Count - 1 ? node with { Pipes = [(Number(2 + dice.Below(4)), "0x" + Hex(1))] } : node)],
    };

    // A sender closes the pipe that its acknowledgements come to, or a receiver the only one it has.
    private Draft Closed(Draft draft)
    {
        var sends = dice.Below(2) == 0;
        var name = sends ? draft.Links[0].From : draft.Links[0].To[0];
        return draft with { Nodes = [.. draft.Nodes.Select(node => node.Name == name ? node with { Pipes = [(sends ? "0" : "1", "closed")] } : node)] };
    }

    // A receiver's own pipes, and a link to one of them.
    private Draft OwnPipes(Draft draft, bool otherPrefix)
    {
        var (first, second) = (Address(draft), Address(draft));
        var (pipe, sent) = otherPrefix ? ("2", second) : ("1", second);
        var at = -1;
        for (var i = 0; i < draft.Links.Count && at < 0; i++)
            at = draft.Links[i].To is ["hub"] && draft.Links[i].More.Count == 0 ? i : -1;
        return at < 0 ? draft : draft with
        {
            Nodes = [.. draft.Nodes.Select(node => node.Name == "hub" ? node with { Pipes = otherPrefix ? [("1", first), ("2", second)] : [("1", first)] } : node)],
            Links = [.. draft.Links.Where(link => !link.To.Contains("hub") || link == draft.Links[at]).Select(link => link == draft.Links[at] ? link with { More = [("address", sent), ("pipe", pipe)] } : link)],
        };
    }

    private string Address(Draft draft)
    {
        var width = draft.Air.FirstOrDefault(one => one.Key == "address-width").Value is { } stated ? int.Parse(stated, CultureInfo.InvariantCulture) : 5;
        return "0x" + Hex(dice.Below(16) == 0 ? 3 + dice.Below(3) : Math.Clamp(width, 3, 5));
    }

    private string Hex(int bytes) => string.Concat(Enumerable.Range(0, bytes).Select(_ => (1 + dice.Below(254)).ToString("X2", CultureInfo.InvariantCulture)));

    private static string Crc(int bytes) => bytes switch { 0 => "none", 1 => "1 byte", _ => "2 bytes" };

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
