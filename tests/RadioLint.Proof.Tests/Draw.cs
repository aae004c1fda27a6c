using System.Globalization;
using System.Text;
using Proof;
using RadioLint.Tests.Truth;

namespace RadioLint.Tests.Proof;

/// <summary>Manifests at random, of whatever reaches a register: parts, air, powers, pipes and addresses written or not, roles, interrupts, CE tied high.</summary>
public sealed class Draw(ulong seed)
{
    private static readonly string[] Rates = ["250 kbps", "1 Mbps", "2 Mbps"];
    private static readonly string[] Sources = ["received", "sent", "gave up"];

    private readonly Dice dice = new(seed);

    /// <param name="mark">Begins every node's name, so that many networks fit into one program.</param>
    public string Next(string mark)
    {
        var width = 3 + dice.Below(3);
        var acknowledges = dice.Below(4) > 0;
        var rate = dice.Below(3);
        var lengths = acknowledges ? dice.Below(3) : 1 + dice.Below(2);
        var payloads = Enumerable.Range(0, 1 + dice.Below(3)).Select(_ => dice.Below(4) == 0 ? 1 + dice.Below(32) : 1 + dice.Below(12)).ToList();
        var count = 2 + dice.Below(6);
        var hub = $"{mark}-hub";
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"radiolint: 1\nnetwork: {mark}\nregion: GB\nair:\n  channel: {Channel()}\n  rate: {Rates[rate]}\n");
        Line(width < 5 || Often(), $"  address-width: {Number(width)}");
        Line(Often(), $"  crc: {(acknowledges ? Number(1 + dice.Below(2)) : Number(dice.Below(3))) switch { "0" => "none", "1" => "1 byte", _ => "2 bytes" }}");
        Line(!acknowledges || Often(), $"  acknowledge: {(acknowledges ? "true" : "false")}");
        Line(lengths > 0, $"  payload-length: {(lengths == 1 ? "exact" : $"{Number(payloads.Max() + dice.Below(33 - payloads.Max()))} bytes")}");
        Line(Often(), $"  retry: {{ {Retry()} }}");
        text.Append("nodes:\n");
        for (var i = 0; i < count; i++)
            text.Append(Node(i == 0 ? hub : $"{mark}-n{Number(i)}", rate > 0, isHub: i == 0));
        var links = Links(mark, hub, count, payloads, width, acknowledges, lengths == 0, text);
        text.Append("links:\n");
        links.ForEach(link => text.Append("  - { ").Append(link).Append(" }\n"));
        text.Append("payloads:\n");
        for (var i = 0; i < payloads.Count; i++)
            text.Append(CultureInfo.InvariantCulture, $"  p{i}: {{ {Fields(payloads[i])} }}\n");
        return text.ToString();

        void Line(bool stands, string line) => text.Append(stands ? line + "\n" : "");
    }

    private bool Often() => dice.Below(3) == 0;

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);

    private string Channel() => (2 + dice.Below(79)) is var channel && Often() ? $"{Number(2400 + channel)} MHz" : Number(channel);

    private string Retry()
    {
        var delays = Enumerable.Range(0, 1 + dice.Below(3)).Select(_ => $"{Number(250 * (6 + dice.Below(11)))} us").Distinct().ToList();
        var delay = Often() ? "open" : delays.Count == 1 ? delays[0] : $"[{string.Join(", ", delays)}]";
        return dice.Below(3) switch { 0 => $"delay: {delay}", 1 => $"limit: {Number(dice.Below(16))}", _ => $"delay: {delay}, limit: {Number(dice.Below(16))}" };
    }

    private string Node(string name, bool isFast, bool isHub)
    {
        var part = dice.Below(4) switch { 0 when isFast => "nRF24L01", 1 => "Si24R1", _ => "nRF24L01+" };
        var powers = RegisterTable.Of(part).Meanings("RF_SETUP", "RF_PWR").ToList();
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"  {name}:\n    board: esp32\n    wires: 5 cm\n    supply: {{ from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }}\n");
        text.Append(CultureInfo.InvariantCulture, $"    radio: {{ part: {part} }}\n");
        var irq = Often() ? $", irq: {{ pin: GPIO4, trigger: falling edge, for: [{string.Join(", ", Sources.Where(_ => dice.Below(2) == 0).DefaultIfEmpty("received"))}] }}" : "";
        text.Append(CultureInfo.InvariantCulture, $"    pins: {{ ce: {(!isHub && dice.Below(8) == 0 ? "tied high" : "GPIO27")}, csn: GPIO5{irq} }}\n");
        if (Often())
            text.Append(CultureInfo.InvariantCulture, $"    power: {powers[dice.Below(powers.Count)]} dBm\n");
        if (!isHub && dice.Below(6) == 0)
            text.Append(CultureInfo.InvariantCulture, $"    retry: {{ {Retry()} }}\n");
        if (dice.Below(10) == 0)
            text.Append(CultureInfo.InvariantCulture, $"    air: {{ no-acknowledge: {(dice.Below(2) == 0 ? "true" : "false")} }}\n");
        return text.ToString();
    }

    // The last lines of the hub may be its own pipes, so they are written before the links.
    private List<string> Links(string mark, string hub, int count, List<int> payloads, int width, bool acknowledges, bool isDynamic, StringBuilder text)
    {
        var prefix = Bytes(width - 1);
        var last = Enumerable.Range(0, 6).Select(i => (byte)(0x31 + (37 * i))).ToList();
        var pipes = Often();
        var own = pipes && dice.Below(2) == 0;
        if (own)
        {
            // The hub is the first entry; its own pipes go there.
            var at = text.ToString().IndexOf($"  {mark}-n1:", StringComparison.Ordinal);
            var open = Enumerable.Range(1, Math.Min(5, count - 1)).Select(i => $"{Number(i)}: {{ address: {(i > 1 && dice.Below(2) == 0 ? $"0x{last[i]:X2}" : $"0x{prefix}{last[i]:X2}")} }}");
            text.Insert(at, $"    pipes: {{ {string.Join(", ", open)}{(Often() ? ", 0: closed" : "")} }}\n");
        }
        var links = new List<string>();
        for (var i = 1; i < count; i++)
        {
            var (name, payload) = ($"{mark}-n{Number(i)}", dice.Below(payloads.Count));
            var pipe = own ? Math.Min(i, 5) : i % 6;
            var address = !pipes ? ""
                : pipe == 0 ? $", address: 0x{Bytes(width)}, pipe: 0"
                : $", address: 0x{prefix}{last[pipe]:X2}{(own || Often() ? $", pipe: {Number(pipe)}" : "")}";
            var silent = acknowledges && dice.Below(6) == 0;
            links.Add($"from: {name}, to: {hub}, payload: p{Number(payload)}, every: 1 min{address}{(silent ? ", acknowledge: false" : "")}");
            if (!silent && acknowledges && isDynamic && dice.Below(5) == 0)
                links.Add($"from: {hub}, to: {name}, payload: p{Number(dice.Below(payloads.Count))}, with: acknowledgement");
            else if (dice.Below(6) == 0)
                links.Add($"from: {hub}, to: {name}, payload: p{Number(dice.Below(payloads.Count))}, every: 1 h{(acknowledges && Often() ? ", acknowledge: false" : "")}");
        }
        if (count > 3 && dice.Below(6) == 0)
            links.Add($"from: {hub}, to: [{mark}-n2, {mark}-n3], payload: p0, every: 1 h, broadcast: true, acknowledge: false");
        return links;
    }

    private string Bytes(int count) => string.Concat(Enumerable.Range(0, count).Select(i => (i == 0 ? 0x91 + dice.Below(64) : 1 + dice.Below(254)).ToString("X2", CultureInfo.InvariantCulture)));

    // So many bytes in all, of whatever types.
    private string Fields(int bytes)
    {
        var fields = new List<string>();
        for (var i = 0; bytes > 0; i++)
        {
            var (size, type) = dice.Below(7) switch
            {
                0 when bytes >= 4 => (4, "float32"),
                1 when bytes >= 2 => (2, "int16 0.1 degC"),
                2 when bytes >= 8 => (8, "uint64"),
                3 when bytes >= 3 => (3, "3 x uint8"),
                4 => (1, "{ bits: [a, b, c] }"),
                5 when bytes >= 5 => (5, "text 5"),
                _ => (1, "uint8"),
            };
            fields.Add($"f{Number(i)}: {type}");
            bytes -= size;
        }
        return string.Join(", ", fields);
    }
}
