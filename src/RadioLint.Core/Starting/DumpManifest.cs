using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using RadioLint.Binding;
using RadioLint.Model;

namespace RadioLint.Starting;

/// <summary>Writes the manifest of some radios: what they agree on once, what differs at each, and a comment for all that registers do not tell.</summary>
internal sealed class DumpManifest
{
    private const int LongestPacket = 32;

    private readonly IReadOnlyList<HeldRadio> radios;
    private readonly StartTerms terms;
    private readonly ImmutableArray<HeldLink> links;

    // Receivers that are not in the dump, each with the address that somebody sends to.
    private readonly List<(string Name, HeldLink Link)> absent = [];
    private readonly List<(string Key, Func<HeldRadio, string> Of, string Common)> air = [];

    public DumpManifest(IReadOnlyList<HeldRadio> radios, StartTerms terms)
    {
        (this.radios, this.terms) = (radios, terms);
        links = HeldLink.Of(radios);
        foreach (var link in links.Where(link => link.To.IsEmpty && absent.TrueForAll(one => !one.Link.Address!.Equals(link.Address))))
            absent.Add((Free(FormattableString.Invariant($"unheard-{absent.Count + 1}")), link));
        Agree("channel", radio => Number(radio.Channel));
        Agree("rate", radio => radio.Rate.InManifest());
        Agree("address-width", radio => Number(radio.Width));
        Agree("crc", radio => radio.Crc switch { 0 => "none", 1 => "1 byte", _ => "2 bytes" });
        Agree("acknowledge", radio => radio.Acknowledges ? "true" : "false");
        Agree("payload-length", radio => IsDynamic(radio) ? "dynamic" : "exact");
    }

    /// <param name="differences">By node, what its plan would have otherwise.</param>
    public string Write(Dictionary<string, List<string>> differences)
    {
        var text = new StringBuilder("# Made from register listings. What registers do not tell is left out; comments say what to add.\nradiolint: 1\n");
        text.Append(FormattableString.Invariant($"network: {terms.Network}\n"));
        text.Append(terms.Region is { } region ? $"region: {Quoted(region)}\n" : "# add `region:`, the country whose band rules hold\n");
        text.Append("air:\n");
        foreach (var (key, _, common) in air)
            text.Append(FormattableString.Invariant($"  {key}: {common}\n"));
        text.Append("nodes:  # add to each its pins, supply, antenna and place; `radiolint fill` chooses pins that are left out\n");
        foreach (var radio in radios)
            WriteNode(text, radio, differences.TryGetValue(radio.Name, out var said) ? said : []);
        foreach (var (name, link) in absent)
            WriteAbsent(text, name, link);
        if (links.Length > 0)
            WriteLinks(text);
        return text.ToString();
    }

    private void WriteNode(StringBuilder text, HeldRadio radio, List<string> differences)
    {
        text.Append(FormattableString.Invariant($"  {radio.Name}:\n"));
        if (radio.IsPowerOn)
            text.Append("    # all registers as after power-on: no program had set this radio up when they were read\n");
        if (radio.Missing.Length > 0)
            text.Append(FormattableString.Invariant($"    # not in the listing, taken as after power-on: {string.Join(", ", radio.Missing)}\n"));
        foreach (var difference in differences)
            text.Append(FormattableString.Invariant($"    # {difference}\n"));
        text.Append(FormattableString.Invariant($"    board: {terms.Board}\n"));
        if (radio.MaskedIrq != 0)
            text.Append(FormattableString.Invariant($"    pins: {{ irq: {{ pin: {IrqPin()}, for: [{string.Join(", ", Sources(radio))}] }} }}  # the registers tell what IRQ is for, not where it is wired\n"));
        text.Append(radio.Part.Name == "nRF24L01+" ? "" : $"    radio: {{ part: {radio.Part.Name} }}  # a guess: RF_SETUP holds what an nRF24L01+ is not given\n");
        text.Append(FormattableString.Invariant($"    power: {radio.Power.Step}\n"));
        text.Append(radio.Test is { } test ? $"    test: {test}\n" : "");
        var own = air.Where(one => one.Of(radio) != one.Common).Select(one => $"{one.Key}: {one.Of(radio)}").ToList();
        if (radio.SetsNoAcknowledge != links.Any(link => link.From == radio && !link.RidesBack && IsUnacknowledged(link)))
            own.Add($"no-acknowledge: {(radio.SetsNoAcknowledge ? "true" : "false")}");
        if (own.Count > 0)
            text.Append(FormattableString.Invariant($"    air: {{ {string.Join(", ", own)} }}\n"));
        if (radio.Pipes.Length > 0)
        {
            text.Append("    pipes:\n");
            foreach (var pipe in radio.Pipes)
                text.Append(FormattableString.Invariant($"      {Number(pipe.Number)}: {Pipe(radio, pipe)}\n"));
        }
        text.Append(radio.HasClosedPipe0 ? "    pipes: { 0: closed }  # so no acknowledgement is heard\n" : "");
        if (radio.IsAcknowledged)
            text.Append(FormattableString.Invariant($"    retry: {{ delay: {radio.RetryDelay}, limit: {Number(radio.RetryLimit)} }}\n"));
    }

    private string Pipe(HeldRadio radio, HeldPipe pipe)
    {
        var isLow = pipe.Number >= 2 && radio.Pipes.Any(other => other.Number == 1);
        var address = isLow ? $"0x{pipe.Address.LowByte:X2}" : $"{pipe.Address}";
        var further = new List<string>();
        if (pipe.Acknowledges != radio.Acknowledges)
            further.Add($"acknowledge: {(pipe.Acknowledges ? "true" : "false")}");
        if (pipe.Length is { } length)
            further.Add(FormattableString.Invariant($"payload-length: {length} bytes"));
        else if (!IsDynamic(radio))
            further.Add("payload-length: dynamic");
        var spoken = links.Any(link => link.To.Contains(radio) && pipe.Address.Equals(link.Address)) ? "" : "  # nobody of the listings is set to send here";
        return (further.Count == 0 ? address : $"{{ address: {address}, {string.Join(", ", further)} }}") + spoken;
    }

    private void WriteAbsent(StringBuilder text, string name, HeldLink link)
    {
        var own = air.Where(one => one.Of(link.From) != one.Common && one.Key != "payload-length").Select(one => $"{one.Key}: {one.Of(link.From)}").ToList();
        text.Append(FormattableString.Invariant($"  {name}:  # not among the listings: who listens at this address; rename it, or take its own listing\n    board: {terms.Board}\n    external: true\n"));
        if (own.Count > 0)
            text.Append(FormattableString.Invariant($"    air: {{ {string.Join(", ", own)} }}\n"));
        text.Append(FormattableString.Invariant($"    pipes: {{ 1: {link.Address} }}\n"));
    }

    private void WriteLinks(StringBuilder text)
    {
        text.Append("links:  # add to each how often, `every: 10 min` or `events: 20 per day`, and `distance`\n");
        foreach (var link in links)
        {
            var to = link.To.IsEmpty ? absent.Find(one => one.Link.Address!.Equals(link.Address)).Name
                : link.To.Length == 1 ? link.To[0].Name : $"[{string.Join(", ", link.To.Select(one => one.Name))}]";
            var further = (link.RidesBack ? ", with: acknowledgement" : $", address: {link.Address}") + (link.To.Length > 1 ? ", broadcast: true" : "") + (IsUnacknowledged(link) ? ", acknowledge: false" : "");
            text.Append(FormattableString.Invariant($"  - {{ from: {link.From.Name}, to: {to}, payload: packet-{Number(Bytes(link))}{further} }}{(link.IsGuess ? "  # a guess: its radio is set up to give payloads back, or to take them" : "")}\n"));
        }
        foreach (var link in links.Where(link => link.TakesBack))
            text.Append(FormattableString.Invariant($"  - {{ from: {absent.Find(one => one.Link.Address!.Equals(link.Address)).Name}, to: {link.From.Name}, payload: packet-{Number(LongestPacket)}, with: acknowledgement }}\n"));
        text.Append("payloads:  # put the fields in the place of `content`; where a packet says its own length, the longest is assumed\n");
        foreach (var bytes in links.Select(Bytes).Concat(links.Where(link => link.TakesBack).Select(_ => LongestPacket)).Distinct().OrderBy(bytes => bytes))
            text.Append(FormattableString.Invariant($"  packet-{Number(bytes)}: {{ content: bytes {Number(bytes)} }}\n"));
    }

    private static bool IsUnacknowledged(HeldLink link) => !link.RidesBack && link.From is { IsAcknowledged: false, Acknowledges: true };

    private static int Bytes(HeldLink link) => link.Length is > 0 and <= LongestPacket and var bytes ? bytes : LongestPacket;

    // A sender without acknowledgements has no length of its own: that of the pipe that it sends to.
    private bool IsDynamic(HeldRadio radio) => radio.Target is not null && !radio.AsksForAcknowledge && radio.Pipes.IsEmpty
        ? links.Where(link => link.From == radio && !link.To.IsEmpty).All(link => link.Length is null)
        : radio.IsDynamic;

    private void Agree(string key, Func<HeldRadio, string> of) =>
        air.Add((key, of, radios.GroupBy(of, StringComparer.Ordinal).OrderByDescending(group => group.Count()).First().Key));

    private string Free(string name)
    {
        while (radios.Any(radio => radio.Name == name))
            name += "-x";
        return name;
    }

    private string IrqPin() => ShippedBoards.Find(terms.Board) is not { } board ? "irq" : (board.Port(board.Wiring?.Irq) ?? board.Pins[0]).Label;

    private static IEnumerable<string> Sources(HeldRadio radio)
    {
        if ((radio.MaskedIrq & 0x40) == 0)
            yield return "received";
        if ((radio.MaskedIrq & 0x20) == 0)
            yield return "sent";
        if ((radio.MaskedIrq & 0x10) == 0)
            yield return "gave up";
    }

    // Norway's code is false to readers of YAML 1.1.
    private static string Quoted(string region) => region == "NO" ? "\"NO\"" : region;

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
