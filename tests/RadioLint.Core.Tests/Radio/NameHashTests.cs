using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>The hash behind derived addresses and numbers.</summary>
public sealed class NameHashTests
{
    // RFC 9923, The FNV Non-Cryptographic Hash Algorithm: FNV-1a with 64 bits of these texts without their final zero.
    [Theory]
    [InlineData("", 0xCBF29CE484222325)]
    [InlineData("a", 0xAF63DC4C8601EC8C)]
    [InlineData("foobar", 0x85944171F73967E8)]
    public void It_gives_the_published_values(string text, ulong hash) => Assert.Equal(hash, NameHash.Of(text));
}
