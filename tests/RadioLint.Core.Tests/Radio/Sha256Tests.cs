using System.Security.Cryptography;
using System.Text;
using RadioLint.Radio;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>The digest behind derived addresses and numbers.</summary>
public sealed class Sha256Tests
{
    // FIPS 180-2, Appendix B.1 (one block) and B.2 (two blocks); NIST CAVP SHA256ShortMsg, Len = 0. Values from memory; the next test confirms them.
    [Theory]
    [InlineData("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")]
    [InlineData("", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")]
    public void Published_digests(string message, string digest) =>
        Assert.Equal(digest, Convert.ToHexStringLower(Sha256.Of(Encoding.ASCII.GetBytes(message))));

    // Lengths round each end of a block, where padding goes wrong, against the system's own.
    [Fact]
    public void The_systems_digest_at_every_length_up_to_three_blocks()
    {
        for (var length = 0; length <= 192; length++)
        {
            var message = new byte[length];
            for (var i = 0; i < length; i++)
                message[i] = (byte)((i * 151) + length);
            Assert.Equal(SHA256.HashData(message), Sha256.Of(message));
        }
    }
}
