using System.Globalization;
using RadioLint;

namespace Larkfield.Host;

/// <summary>The last reading of a hive.</summary>
internal readonly record struct HiveState(string Hive, double WeightGrams, double TemperatureCelsius, double BatteryMillivolts, int Missed);

/// <summary>Where readings are shown.</summary>
internal interface IHiveView
{
    void Show(HiveState hive);

    void Say(string line);
}

/// <summary>What the gateway has told so far, by hive.</summary>
internal sealed class Apiary(IHiveView view)
{
    private readonly Dictionary<string, byte> sequences = new(StringComparer.Ordinal);

    /// <summary>Report lines that were cut or changed on the way.</summary>
    public int Garbled { get; set; }

    public void Take(ReportLine report)
    {
        if (!report.IsFrom(LarkfieldApiary.Nodes.Shed.Name))
            return;
        if (report.TryGetBoot(out var boot))
            view.Say(Compare(boot));
        else if (report.TryGetReceived(out var received) && SenderOn(received.Pipe) is { } hive)
            Take(hive, received);
    }

    /// <summary>Says what was lost on the way, if anything was.</summary>
    public void End()
    {
        if (Garbled > 0)
            view.Say(string.Create(CultureInfo.InvariantCulture, $"{Garbled} garbled {(Garbled == 1 ? "line" : "lines")}"));
    }

    // Firmware of another manifest would be read wrongly: say so at once.
    private static string Compare(BootReport boot) => boot.Fingerprint != LarkfieldApiary.Air.Fingerprint
        ? "the shed runs firmware of another manifest: emit and flash it again"
        : boot.Digest != LarkfieldApiary.Nodes.Shed.Digest
            ? "the shed agrees with the network, but was built from an older plan of its own"
            : "the shed started with the planned firmware";

    private static string? SenderOn(int pipe) => pipe switch
    {
        LarkfieldApiary.Links.Hive1ToShedReading.Pipe => LarkfieldApiary.Links.Hive1ToShedReading.From,
        LarkfieldApiary.Links.Hive2ToShedReading.Pipe => LarkfieldApiary.Links.Hive2ToShedReading.From,
        LarkfieldApiary.Links.Hive3ToShedReading.Pipe => LarkfieldApiary.Links.Hive3ToShedReading.From,
        _ => null,
    };

    private void Take(string hive, ReceivedReport received)
    {
        Span<byte> packet = stackalloc byte[32];
        if (!LarkfieldApiary.Payloads.Reading.TryRead(received.Packet.CopyTo(packet), out var reading))
        {
            view.Say($"{hive}: {received.Packet.Count} bytes that are no reading");
            return;
        }
        var missed = sequences.TryGetValue(hive, out var last) ? (byte)(reading.Sequence - last - 1) : 0;
        sequences[hive] = reading.Sequence;
        view.Show(new(hive, reading.Weight, reading.Temperature, reading.Battery, missed));
    }
}
