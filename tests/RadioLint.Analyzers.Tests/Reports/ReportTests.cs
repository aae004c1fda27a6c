using System.Text;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Reports;

/// <summary>The reader of report lines, which the tests compile as every host program does.</summary>
public sealed class ReportTests
{
    // Catalogue of parametrised CRC algorithms, CRC-8/SMBUS (the same polynomial, start 00): F4 for "123456789"; value from memory. A start of FF is a
    // start of 00 with the first byte complemented. The others by hand, bit by bit.
    [Fact]
    public void Check_values_are_those_of_the_polynomial()
    {
        Assert.Equal(0xF4, global::RadioLint.ReportLine.CheckOf([(byte)('1' ^ 0xFF), .. "23456789"u8]));
        // The start, unchanged by an empty message.
        Assert.Equal(0xFF, global::RadioLint.ReportLine.CheckOf([]));
        // FF xor 00 = FF: 1111 1111, eight steps of shift left and xor 07: F9 F5 ED DD BD 7D FA F3.
        Assert.Equal(0xF3, global::RadioLint.ReportLine.CheckOf([0x00]));
        // FF xor FF = 00 stays 00.
        Assert.Equal(0x00, global::RadioLint.ReportLine.CheckOf([0xFF]));
    }

    // The remainder of a division over GF(2), written independently: the message with its start value, eight zeros behind it.
    [Fact]
    public void Check_values_are_the_remainder_of_a_polynomial_division()
    {
        var random = new Random(7);
        for (var round = 0; round < 200; round++)
        {
            var bytes = new byte[random.Next(1, 40)];
            random.NextBytes(bytes);
            var bits = bytes.SelectMany((one, at) => Enumerable.Range(0, 8).Select(bit => (((at == 0 ? one ^ 0xFF : one) >> (7 - bit)) & 1) == 1)).Concat(new bool[8]).ToArray();
            // x^8 + x^2 + x + 1
            bool[] divisor = [true, false, false, false, false, false, true, true, true];
            for (var i = 0; i + 8 < bits.Length; i++)
            {
                for (var j = 0; bits[i] && j < 9; j++)
                    bits[i + j] ^= j > 0 && divisor[j];
            }
            var rest = bits[^8..].Aggregate(0, (sum, bit) => (sum << 1) | (bit ? 1 : 0));
            Assert.Equal(rest, global::RadioLint.ReportLine.CheckOf(bytes));
        }
    }

    [Fact]
    public void Every_kind_of_line_is_read()
    {
        var log = Log("rl1 boot hive-1 8CA7B5C1 D9741AB0", "rl1 reg hive-1 0A 4508615C9D", "rl1 end hive-1 26", "rl1 rx shed 1 0A00000064", "rl1 tx hive-1 gave-up 15", "rl1 tx hive-1 ok 0",
            "rl1 tx hive-1 busy 0", "rl1 sweep shed 3 200 0 0 12 4", "rl1 beat shed 86400");
        var reader = new global::RadioLint.ReportReader(log, isComplete: false);

        Assert.True(reader.TryRead(out var line));
        Assert.True(line.IsFrom("hive-1"));
        Assert.False(line.IsFrom("hive-12"));
        Assert.True(line.TryGetBoot(out var boot));
        Assert.False(line.TryGetBeat(out _));
        Assert.Equal((0x8CA7B5C1u, 0xD9741AB0u), (boot.Fingerprint, boot.Digest));

        Assert.True(reader.TryRead(out line) && line.TryGetRegister(out _));
        line.TryGetRegister(out var register);
        Assert.Equal((0x0A, 5, 0x45), (register.Address, register.Content.Count, register.Content[0]));

        Assert.True(reader.TryRead(out line) && line.TryGetEnd(out var count) && count == 26);

        Assert.True(reader.TryRead(out line));
        Assert.True(line.TryGetReceived(out var received));
        Assert.Equal(1, received.Pipe);
        Assert.Equal([0x0A, 0, 0, 0, 0x64], received.Packet.CopyTo(new byte[32]).ToArray());

        foreach (var (result, retries) in new[] { (global::RadioLint.SendResult.GaveUp, 15), (global::RadioLint.SendResult.Ok, 0), (global::RadioLint.SendResult.Busy, 0) })
        {
            Assert.True(reader.TryRead(out line) && line.TryGetSent(out var sent) && (sent.Result, sent.Retries) == (result, retries));
        }

        Assert.True(reader.TryRead(out line));
        Assert.True(line.TryGetSweep(out var sweep));
        Assert.Equal((3, 200, 0, 3, 12), (sweep.Number, sweep.DwellUs, sweep.FirstChannel, sweep.Count, sweep[1]));

        Assert.True(reader.TryRead(out line) && line.TryGetBeat(out var seconds) && seconds == 86400);
        Assert.False(reader.TryRead(out _));
        Assert.Equal((0, log.Length), (reader.Garbled, reader.Consumed));
    }

    [Theory]
    [InlineData("rl1 beat shed 60 *00", 0, 1)] // another check value
    [InlineData("rl1 beat shed 60", 0, 1)] // cut before it
    [InlineData("rl1 beat shed sixty", 0, 1, true)]
    [InlineData("rl1 beat shed -1", 0, 1, true)]
    [InlineData("rl1 beat shed 99999999999", 0, 1, true)]
    [InlineData("rl1 beat shed", 0, 1, true)]
    [InlineData("rl1 beat", 0, 1, true)]
    [InlineData("rl1 rx shed 6 00", 0, 1, true)]
    [InlineData("rl1 rx shed 1 0", 0, 1, true)]
    [InlineData("rl1 rx shed 1 0G", 0, 1, true)]
    [InlineData("rl1 tx shed lost 3", 0, 1, true)]
    [InlineData("rl1 tx shed ok 16", 0, 1, true)]
    [InlineData("rl1 sweep shed 1 200 125 1 2", 0, 1, true)] // beyond channel 125
    [InlineData("rl1 boot shed 8CA7B5C 00000000", 0, 1, true)]
    [InlineData("rl1 dance shed 3", 0, 0, true)] // a later kind
    [InlineData("nothing of ours", 0, 0)]
    [InlineData("ctrl1 beat shed 60", 0, 0, true)] // a longer word
    [InlineData("[12:00:01] rl1 beat shed 60", 1, 0, true, " and more")]
    [InlineData("rl1 rx shed 1 0Arl1 beat shed 60", 0, 1, true)] // run together: a node may be called ctrl1, so no start is seen within a word
    public void Only_whole_lines_count(string text, int read, int garbled, bool withCheck = false, string behind = "")
    {
        var at = Math.Max(0, text.IndexOf("rl1", StringComparison.Ordinal));
        var log = Encoding.ASCII.GetBytes(text + (withCheck ? " *" + Check(text[at..]) : "") + behind + "\n");
        Assert.Equal((read, garbled), Count(log));
    }

    [Fact]
    public void Two_reports_that_ran_together_give_the_later_one()
    {
        var whole = Encoding.ASCII.GetString(Log("rl1 beat shed 60"));
        Assert.Equal((1, 1), Count(Encoding.ASCII.GetBytes("rl1 rx shed 1 0A " + whole)));
        Assert.Equal((2, 0), Count(Encoding.ASCII.GetBytes(whole.TrimEnd('\n') + " " + whole)));
    }

    [Fact]
    public void A_line_of_121_characters_is_garbled_and_one_of_120_is_not()
    {
        static string Padded(int length) => "rl1 sweep shed 1 200 0 " + string.Join(" ", Enumerable.Repeat("1", 40)) + new string('1', length - 4 - ("rl1 sweep shed 1 200 0 ".Length + 79));
        Assert.Equal(120, Padded(120).Length + 4);
        Assert.Equal((0, 1), Count(Log(Padded(121))));
        // Shortened by a digit's worth of channels: the number of the last channel must stay a number.
        Assert.Equal((1, 0), Count(Log("rl1 sweep shed 1 200 0 " + string.Join(" ", Enumerable.Repeat("1", 46)) + " " + "1")));
    }

    [Fact]
    public void A_log_cut_anywhere_is_used_up_to_there()
    {
        var log = Log("rl1 beat shed 60", "rl1 rx shed 1 0A", "rl1 beat shed 120");
        for (var length = 0; length <= log.Length; length++)
        {
            var part = log.AsSpan(0, length);
            var lines = part.Count((byte)'\n');
            var reader = new global::RadioLint.ReportReader(part, isComplete: false);
            var read = 0;
            while (reader.TryRead(out _))
                read++;
            Assert.Equal((lines, 0, part.LastIndexOf((byte)'\n') + 1), (read, reader.Garbled, reader.Consumed));
        }
    }

    [Fact]
    public void Every_changed_character_is_noticed()
    {
        var log = Log("rl1 rx shed 1 0A00000064");
        for (var at = 4; at < log.Length - 1; at++)
        {
            for (var bit = 0; bit < 8; bit++)
            {
                var changed = (byte[])log.Clone();
                changed[at] ^= (byte)(1 << bit);
                var (read, _) = Count(changed);
                Assert.True(read == 0, $"bit {bit} of character {at}");
            }
        }
    }

    [Fact]
    public void Nothing_is_allocated()
    {
        var log = Log(Enumerable.Range(0, 1000).Select(i => i % 3 == 0 ? "rl1 rx shed 1 0A00000064" : i % 3 == 1 ? "rl1 sweep shed 1 200 0 1 2 3" : "rl1 tx shed ok 2").ToArray());
        var buffer = new byte[32];
        Assert.Equal(1000, Work(log, buffer));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var read = Work(log, buffer);
        var after = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal((1000, 0L), (read, after - before));

        static int Work(ReadOnlySpan<byte> log, Span<byte> buffer)
        {
            var reader = new global::RadioLint.ReportReader(log, isComplete: true);
            var read = 0;
            while (reader.TryRead(out var line))
            {
                read += line.IsFrom("shed") ? 1 : 0;
                if (line.TryGetReceived(out var received))
                    received.Packet.CopyTo(buffer);
                else if (line.TryGetSweep(out var sweep))
                    read += sweep[0] - 1;
            }
            return read;
        }
    }

    private static (int Read, int Garbled) Count(ReadOnlySpan<byte> log)
    {
        var reader = new global::RadioLint.ReportReader(log, isComplete: true);
        var read = 0;
        while (reader.TryRead(out _))
            read++;
        return (read, reader.Garbled);
    }

    private static string Check(string text) => global::RadioLint.ReportLine.CheckOf(Encoding.ASCII.GetBytes(text)).ToString("X2", System.Globalization.CultureInfo.InvariantCulture);

    private static byte[] Log(params string[] lines) => Encoding.ASCII.GetBytes(string.Concat(lines.Select(line => $"{line} *{Check(line)}\n")));
}
