#if MISTAKES
using System.Buffers.Binary;
using System.Runtime.InteropServices;
using RadioLint;

namespace Larkfield.Host;

/// <summary>What goes wrong in host programs, on purpose: compiled only with <c>dotnet build -p:Mistakes=true</c>.</summary>
internal static class Mistakes
{
    [Planned("air.channel")]
    private const int Channel = 76;

    [Planned("nodes.hive-4.number")]
    private const int Number = 4;

    public static void ListenForEver(Func<byte[]> port)
    {
        while (true)
        {
            try
            {
                var reader = new ReportReader(port(), isComplete: true);
                while (reader.TryRead(out var line))
                    Take(line);
            }
            catch (Exception)
            {
            }
        }
    }

    private static void Take(ReportLine line)
    {
        if (!line.IsFrom("sched"))
            return;
        if (line.TryGetBoot(out var boot) && boot.Fingerprint != 0x12345678)
            Console.WriteLine($"another network than that on channel {Channel}, or {Number} is asleep");
        if (!line.TryGetReceived(out var received) || received.Pipe == 7)
            return;
        if (received.Pipe == 2)
            Console.WriteLine("hive-2");
        Span<byte> room = stackalloc byte[8];
        var packet = received.Packet.CopyTo(room);
        LarkfieldApiary.Payloads.Reading.TryRead(packet, out var reading);
        Console.WriteLine($"{reading.TemperatureRaw} degC");
        Decode(packet);
    }

    private static void Decode(ReadOnlySpan<byte> packet)
    {
        var weight = BitConverter.ToInt32(packet);
        var battery = BinaryPrimitives.ReadUInt16BigEndian(packet.Slice(6));
        var own = MemoryMarshal.Read<OwnReading>(packet);
        Console.WriteLine(weight + battery + own.Temperature);
    }

    private static void Order(Span<byte> room) => new LarkfieldApiary.Payloads.Order(600, flagsTare: true, flagsSleep: false, sequence: 1).TryWrite(room);

    private struct OwnReading
    {
        public int Weight { get; set; }

        public short Temperature { get; set; }

        public ushort Battery { get; set; }

        public byte Sequence { get; set; }
    }
}
#endif
