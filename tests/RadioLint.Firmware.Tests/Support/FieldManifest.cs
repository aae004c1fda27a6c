namespace RadioLint.Tests.Firmware.Support;

/// <summary>A network of a hub and two posts, up to its links.</summary>
internal static class FieldManifest
{
    public const string Head = """
        radiolint: 1
        network: field
        region: GB
        air: { channel: 74, rate: 1 Mbps, retry: { delay: 500 us, limit: 15 } }
        all-nodes: { wires: 5 cm, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic } }
        nodes:
          hub: { board: atmega2560, pins: { ce: D48, csn: D49 } }
          post: { each: [east, north], board: atmega328p, pins: { ce: D9, csn: D10 } }

        """;
}
