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
        var used = 0;
        while (used < Most)
        {
            if (used < buffer.Length)
            {
                var count = stream.Read(buffer, used, buffer.Length - used);
                if (count == 0)
                    break;
                used += count;
            }
            // A full buffer may be the whole file: it grows, and is copied, only for one byte more.
            else if (stream.ReadByte() is var next and >= 0)
            {
                Array.Resize(ref buffer, Math.Min(buffer.Length * 2, Most));
                buffer[used++] = (byte)next;
            }
            else
            {
                break;
            }
        }
        return used == buffer.Length ? buffer : buffer.AsSpan(0, used).ToArray();
    }
}
