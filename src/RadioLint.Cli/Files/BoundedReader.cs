using RadioLint.Manifest;

namespace RadioLint.Cli.Files;

/// <summary>Reads whole files, but never more than one byte past the bound: that byte is enough for the finding.</summary>
internal static class BoundedReader
{
    private const int Most = FileText.MaxBytes + 1;

    public static byte[] ReadFile(string path)
    {
        using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0);
        // What has no length, a pipe or a device, is read like standard input; a length may also be a lie.
        return Read(stream, stream.CanSeek ? (int)Math.Min(stream.Length, Most) : 0);
    }

    public static byte[] Read(Stream stream, int expected = 0)
    {
        var buffer = new byte[expected > 0 ? expected : 16 * 1024];
        var next = new byte[1];
        var used = 0;
        while (used < Most)
        {
            // A full buffer may be the whole file: it grows, and is copied, only for a byte more.
            var isFull = used == buffer.Length;
            var count = isFull ? stream.Read(next, 0, 1) : stream.Read(buffer, used, buffer.Length - used);
            if (count == 0)
                break;
            if (isFull)
            {
                Array.Resize(ref buffer, Math.Min(buffer.Length * 2, Most));
                buffer[used] = next[0];
            }
            used += count;
        }
        return used == buffer.Length ? buffer : buffer.AsSpan(0, used).ToArray();
    }
}
