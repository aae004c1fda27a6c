using RadioLint;

namespace Larkfield.Host;

/// <summary>Feeds a stream's bytes through the report reader, however they are cut into pieces.</summary>
internal static class GatewayLog
{
    private const int MostHeld = 4096;

    public static async Task ReadAsync(Stream source, Apiary apiary, CancellationToken stop)
    {
        var held = new byte[MostHeld];
        var count = 0;
        while (!stop.IsCancellationRequested)
        {
            int read;
            try
            {
                read = await source.ReadAsync(held.AsMemory(count), stop);
            }
            catch (OperationCanceledException)
            {
                return;
            }
            count += read;
            var used = Take(held.AsSpan(0, count), isComplete: read == 0, apiary);
            if (read == 0)
                return;
            // A line without an end longer than any report is noise: drop it rather than wait for ever.
            if (used == 0 && count == held.Length)
                used = count;
            held.AsSpan(used, count - used).CopyTo(held);
            count -= used;
        }
    }

    private static int Take(ReadOnlySpan<byte> bytes, bool isComplete, Apiary apiary)
    {
        var reader = new ReportReader(bytes, isComplete);
        while (reader.TryRead(out var report))
            apiary.Take(report);
        apiary.Garbled += reader.Garbled;
        return reader.Consumed;
    }
}
