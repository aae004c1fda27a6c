namespace RadioLint.Radio;

/// <summary>
/// SHA-256 (FIPS 180-4, 6.2), for numbers and addresses made from names: nothing here is a secret. The system's own brings a library
/// of encryption into the process, which takes longer to load than all else that a check of a small manifest does with its plan.
/// </summary>
internal static class Sha256
{
    private const int Block = 64;

    // 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64 primes.
    private static readonly uint[] Constants =
    [
        0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
        0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
        0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
        0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
        0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
        0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
        0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
        0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
    ];

    /// <summary>The digest, 32 bytes.</summary>
    public static byte[] Of(byte[] message)
    {
        uint[] state = [0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19];
        var padded = Padded(message);
        for (var start = 0; start < padded.Length; start += Block)
            Add(state, Schedule(padded, start));
        var digest = new byte[state.Length * 4];
        for (var i = 0; i < digest.Length; i++)
            digest[i] = (byte)(state[i / 4] >> (24 - (8 * (i % 4))));
        return digest;
    }

    // 5.1.1: a 1 bit, zeros, and the length in bits as the last 64 of a block.
    private static byte[] Padded(byte[] message)
    {
        var padded = new byte[(message.Length + 8 + Block) / Block * Block];
        message.CopyTo(padded, 0);
        padded[message.Length] = 0x80;
        var bits = (ulong)message.Length * 8;
        for (var i = 0; i < 8; i++)
            padded[padded.Length - 1 - i] = (byte)(bits >> (8 * i));
        return padded;
    }

    private static uint[] Schedule(byte[] bytes, int start)
    {
        var words = new uint[Constants.Length];
        for (var i = 0; i < Block / 4; i++)
        {
            var at = start + (i * 4);
            words[i] = ((uint)bytes[at] << 24) | ((uint)bytes[at + 1] << 16) | ((uint)bytes[at + 2] << 8) | bytes[at + 3];
        }
        for (var i = Block / 4; i < words.Length; i++)
        {
            var (near, far) = (words[i - 2], words[i - 15]);
            words[i] = words[i - 16] + words[i - 7]
                + (Turned(near, 17) ^ Turned(near, 19) ^ (near >> 10)) + (Turned(far, 7) ^ Turned(far, 18) ^ (far >> 3));
        }
        return words;
    }

    private static void Add(uint[] state, uint[] words)
    {
        var (a, b, c, d) = (state[0], state[1], state[2], state[3]);
        var (e, f, g, h) = (state[4], state[5], state[6], state[7]);
        for (var i = 0; i < words.Length; i++)
        {
            var first = h + (Turned(e, 6) ^ Turned(e, 11) ^ Turned(e, 25)) + ((e & f) ^ (~e & g)) + Constants[i] + words[i];
            var second = (Turned(a, 2) ^ Turned(a, 13) ^ Turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
            (h, g, f, e, d, c, b, a) = (g, f, e, d + first, c, b, a, first + second);
        }
        uint[] sum = [a, b, c, d, e, f, g, h];
        for (var i = 0; i < sum.Length; i++)
            state[i] += sum[i];
    }

    private static uint Turned(uint word, int right) => (word >> right) | (word << (32 - right));
}
