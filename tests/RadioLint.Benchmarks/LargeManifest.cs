using System.Globalization;
using System.Text;

namespace RadioLint.Benchmarks;

/// <summary>Networks of any size in the shape of a real one: hubs with five senders each, all written out or by groups.</summary>
internal static class LargeManifest
{
    private const int SendersPerHub = 5;

    /// <summary>Every node written out, about 1 kB each.</summary>
    public static string WrittenOut(int nodes)
    {
        var text = Head();
        text.Append("nodes:\n");
        for (var n = 0; n < nodes; n++)
            AppendNode(text, n);
        text.Append("links:\n");
        for (var n = 0; n < nodes; n++)
        {
            if (n % (SendersPerHub + 1) != 0)
                Append(text, $"  - {{ from: node-{n}, to: node-{n - (n % (SendersPerHub + 1))}, payload: reading, every: 10 min, jitter: 20 s, distance: 12..40 m }}\n");
        }
        return text.Append(Payloads).ToString();
    }

    /// <summary>One hub and a single group.</summary>
    public static string ByEach(int nodes)
    {
        var text = Head();
        text.Append("nodes:\n");
        AppendNode(text, 0);
        Append(text, $"  probe:\n    each: 1..{nodes - 1}\n");
        AppendBody(text, 1);
        text.Append("links:\n  - { from: probe, to: node-0, payload: reading, every: 10 min, jitter: 20 s, distance: 12..40 m }\n");
        return text.Append(Payloads).ToString();
    }

    private const string Payloads = """
        payloads:
          reading: { sender: uint16, weight: int32 g in -500..120000, temperature: int16 0.01 degC in -40..85, battery: uint16 mV, sequence: uint8 }

        """;

    private static StringBuilder Head() => new("""
        radiolint: 1
        network: measured
        region: GB
        air: { channel: 74, rate: 250 kbps, address-width: 5, crc: 2 bytes }

        """);

    private static void AppendNode(StringBuilder text, int n)
    {
        Append(text, $"  node-{n}:\n");
        AppendBody(text, n);
    }

    private static void AppendBody(StringBuilder text, int n)
    {
        var isHub = n % (SendersPerHub + 1) == 0;
        Append(text, $"    place: \"row {n / 12}, position {n % 12}, on the south side of the house, beside the water butt\"\n");
        Append(text, $"    height: {1 + (n % 3)} m\n");
        text.Append("    temperature: -15..40 degC\n");
        text.Append(isHub ? "    board: { based-on: atmega2560, clock: 16 MHz, logic: 5 V }\n" : "    board: { based-on: atmega328p, clock: 8 MHz, logic: 3.3 V, brown-out: 1.8 V, removed: [power LED, USB bridge, regulator] }\n");
        text.Append("    radio:\n      part: nRF24L01+\n      header: 8-pin\n      antenna: { kind: printed, gain: 0 dBi, around: clear }\n");
        text.Append("    power: -6 dBm\n    wires: 8 cm\n");
        text.Append("    board-supply:\n      from: mains\n      output: 5 V\n      limit: 1 A\n");
        text.Append("    supply:\n      from: adapter\n      part: AMS1117-3.3\n      input: 5 V\n      capacitor: [10 uF ceramic, 100 nF ceramic]\n");
        text.Append(isHub
            ? "    pins:\n      ce: D48\n      csn: D53\n      irq: { pin: D2, trigger: falling edge, for: [received] }\n"
            : "    pins:\n      ce: D9\n      csn: D10\n      irq: { pin: D2, trigger: low level, for: [sent, gave up] }\n");
        text.Append("    also-uses:\n      A0: { use: light sensor, direction: input }\n");
        text.Append("    service: { by: interrupt, takes: 1 ms }\n    wifi: none\n");
        if (!isHub)
            text.Append("    sleep:\n      wakes: every 10 min\n      awake: 40 ms\n      radio: power-down\n      lines: held\n");
    }

    private static void Append(StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture));
}
