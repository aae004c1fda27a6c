using System.Device.Spi;
using System.Globalization;
using RadioLint.Facts;
using RadioLint.Tests.Analyzers.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Analyzers.Spi;

/// <summary>The single-board computer as a node: the image goes over an SPI unit that holds registers as the data sheet says.</summary>
public sealed class RadioOverSpiTests
{
    [Theory, InlineData("office"), InlineData("shed"), InlineData("hive-1")]
    public void Every_register_of_the_plan_is_written_and_verified(string node)
    {
        var image = ImageOf(node);
        using var radio = new Registers();
        radio.ApplyImage(new(image, 0xFE, false));
        Assert.Empty(radio.VerifyImage(new(image, 0xFE, false)));
        foreach (var (address, planned) in Planned(image))
            Assert.Equal(Convert.ToHexString(planned), Convert.ToHexString(radio[address][..planned.Length]));
        Assert.Equal(0, radio.Violations);
    }

    [Fact]
    public void A_register_that_does_not_hold_is_named()
    {
        var image = ImageOf("office");
        foreach (var (address, planned) in Planned(image).Where(one => one.Key != 0x07))
        {
            for (var at = 0; at < planned.Length; at++)
            {
                using var radio = new Registers();
                radio.ApplyImage(new(image, 0xFE, false));
                radio[address][at] ^= 0x10;
                var difference = Assert.Single(radio.VerifyImage(new(image, 0xFE, false)));
                Assert.Equal((address, Convert.ToHexString(planned)), (difference.Address, difference.Planned));
                Assert.NotEqual(difference.Planned, difference.Found);
            }
        }
    }

    [Fact]
    public void Words_say_register_content_and_plan()
    {
        var image = ImageOf("office");
        using var radio = new Registers();
        radio.ApplyImage(new(image, 0xFE, false));
        radio[0x05][0] = 0x02;
        Assert.Equal("RF_CH holds 02, planned 4A", Assert.Single(radio.VerifyImage(new(image, 0xFE, false))).ToString());
    }

    [Fact]
    public void Bits_that_the_radio_does_not_have_are_not_compared()
    {
        var image = ImageOf("office");
        using var radio = new Registers();
        radio.ApplyImage(new(image, 0xFE, false));
        radio[0x06][0] ^= 0x01;
        Assert.Empty(radio.VerifyImage(new(image, 0xFE, false)));
        Assert.Single(radio.VerifyImage(new(image, 0xFF, false)));
    }

    // No radio: MISO floats high or is held low.
    [Theory, InlineData(0xFF), InlineData(0x00)]
    public void A_missing_radio_differs_in_many_registers(byte level)
    {
        var image = ImageOf("office");
        using var radio = new Registers { Missing = level };
        radio.ApplyImage(new(image, 0xFE, false));
        Assert.True(radio.VerifyImage(new(image, 0xFE, false)).Count > 8);
    }

    // nRF24L01 Product Specification 2.0, Table 16: ACTIVATE makes FEATURE and DYNPD accessible, and hides them again.
    [Theory, InlineData(false), InlineData(true)]
    public void The_earlier_part_is_unlocked_once_whatever_its_state(bool isOpen)
    {
        var image = ImageOf("office");
        using var radio = new Registers { IsEarlier = true, IsOpen = isOpen };
        radio.ApplyImage(new(image, 0xFE, true));
        Assert.Empty(radio.VerifyImage(new(image, 0xFE, true)));
        Assert.True(radio.IsOpen);

        using var locked = new Registers { IsEarlier = true };
        locked.ApplyImage(new(image, 0xFE, false));
        Assert.Equal(["DYNPD", "FEATURE"], locked.VerifyImage(new(image, 0xFE, false)).Select(one => one.Name).Order());
    }

    private static byte[] ImageOf(string node)
    {
        var network = Linter.Check(new SourceText("apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath))).Network!;
        var facts = NodeFacts.Of(network, network.Plan.Nodes.Single(plan => plan.Node.Name == node))!;
        return [.. facts.Image.Frames.SelectMany(frame => frame.Bytes.Prepend((byte)frame.Bytes.Length)), 0];
    }

    // What each register holds in the end.
    private static SortedDictionary<byte, byte[]> Planned(byte[] image)
    {
        var planned = new SortedDictionary<byte, byte[]>();
        for (var at = 0; image[at] != 0; at += image[at] + 1)
        {
            if ((image[at + 1] & 0xE0) == 0x20 && image[at + 1] != 0x27)
                planned[(byte)(image[at + 1] & 0x1F)] = image[(at + 2)..(at + 1 + image[at])];
        }
        return planned;
    }

    /// <summary>Registers behind an SPI unit: commands R_REGISTER, W_REGISTER, the flushes and ACTIVATE (nRF24L01+ Product Specification 1.0, Table 20).</summary>
    private sealed class Registers : SpiDevice
    {
        private readonly byte[][] held = [.. Enumerable.Range(0, 0x20).Select(_ => new byte[5])];

        public byte? Missing { get; init; }
        public bool IsEarlier { get; init; }
        public bool IsOpen { get; set; }
        public int Violations { get; private set; }
        public byte[] this[int address] => held[address];

        public override SpiConnectionSettings ConnectionSettings { get; } = new(0, 0);

        public override void Read(Span<byte> buffer) => throw new NotSupportedException();

        public override void Write(ReadOnlySpan<byte> buffer) => TransferFullDuplex(buffer, new byte[buffer.Length]);

        public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
        {
            Assert.Equal(writeBuffer.Length, readBuffer.Length);
            if (Missing is { } level)
            {
                readBuffer.Fill(level);
                return;
            }
            readBuffer[0] = 0x0E;
            var (command, address) = (writeBuffer[0] & 0xE0, writeBuffer[0] & 0x1F);
            if (command == 0x00)
            {
                held[address].AsSpan(0, Math.Min(5, readBuffer.Length - 1)).CopyTo(readBuffer[1..]);
            }
            else if (command == 0x20)
            {
                // Registers but CONFIG and STATUS are written in power down or standby only.
                Violations += address is not (0x00 or 0x07) && (held[0][0] & 0x02) != 0 && held[0][0] != 0 ? 1 : 0;
                if (address is not (0x1C or 0x1D) || !IsEarlier || IsOpen)
                    writeBuffer[1..].CopyTo(held[address]);
            }
            else if (writeBuffer is [0x50, 0x73] && IsEarlier)
            {
                IsOpen = !IsOpen;
            }
            else if (writeBuffer is not ([0xE1] or [0xE2]))
            {
                throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"command {writeBuffer[0]:X2}"));
            }
        }
    }
}
