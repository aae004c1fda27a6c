using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Readback;
using Xunit;

namespace RadioLint.Tests.Readback;

/// <summary>Logs as they come: several nodes, noise, cuts, garbled lines, and such as are made to hurt.</summary>
public sealed class LogTests
{
    // Lines of docs/bring-up.md, printed by the emulated program.
    [Theory]
    [InlineData("rl1 boot hall E6634F9D 98D6AA3C *67")]
    [InlineData("rl1 reg hall 00 0F *46")]
    [InlineData("rl1 end hall 26 *83")]
    [InlineData("rl1 beat hall 1 *3B")]
    public void Check_values_are_those_of_the_programs(string line)
    {
        Assert.Equal(line, Logs.Line(line[..^4]));
        Assert.Equal(0, Logs.Read("log", line).Garbled);
        Assert.Single(Logs.Read("log", line).Nodes);
    }

    [Fact]
    public void Nodes_of_one_log_are_told_apart()
    {
        var (hall, cellar) = (Logs.Listing("hall", Logs.Configured("hall")).Split("\r\n"), Logs.Listing("cellar", Logs.Configured("cellar")).Split("\r\n"));
        var (_, judgement) = Logs.Judge("log", string.Join("\r\n", hall.Zip(cellar).SelectMany(pair => new[] { pair.First, "noise", pair.Second })), "hall");
        Assert.Equal(["hall AsPlanned", "cellar AsPlanned"], judgement.Nodes.Select(node => $"{node.Name} {node.Verdict}"));
    }

    [Fact]
    public void A_log_that_is_cut_anywhere_is_used_up_to_there()
    {
        var text = Logs.Line("rl1 boot hall E6634F9D 98D6AA3C") + "\r\n" + Logs.Listing("hall", Logs.Configured("hall"));
        for (var at = 0; at < text.Length; at++)
        {
            var (log, judgement) = Logs.Judge("log", text[..at], "hall");
            Assert.Empty(judgement.Findings);
            Assert.InRange(log.Garbled, 0, 1);
            Assert.All(judgement.Nodes, node => Assert.True(node.Verdict is NodeVerdict.AsPlanned or NodeVerdict.NoListing, $"{at} {node.Verdict}"));
        }
    }

    [Fact]
    public void A_listing_that_was_cut_does_not_take_the_place_of_a_whole_one()
    {
        var registers = Logs.Configured("hall");
        var whole = Logs.Listing("hall", registers);
        registers[0x05] = [0x02];
        var (_, judgement) = Logs.Judge("log", whole + Logs.Listing("hall", registers)[..180], "hall");
        Assert.Equal(NodeVerdict.AsPlanned, judgement.Nodes[0].Verdict);
    }

    [Fact]
    public void Every_flipped_bit_is_noticed_and_the_first_is_named()
    {
        var line = Logs.Line("rl1 reg hall 05 4A");
        for (var bit = 0; bit < line.Length * 8; bit++)
        {
            var text = line.ToCharArray();
            text[bit / 8] ^= (char)(1 << (bit % 8));
            if (text[bit / 8] is '\n' or '\r')
                continue;
            var log = Logs.Read("log", "first\n" + new string(text));
            // The mark itself may be what is damaged.
            Assert.True(log.Garbled == 1 || (bit < 32 && log.Nodes.Count == 0), new string(text));
            Assert.True(log.Garbled == 0 || log.FirstGarbled!.Value.Place.From.Line == 2);
        }
        Assert.Equal($"its check value should be {Logs.Line("rl1 reg hall 00 0E")[^2..]}", Logs.Read("log", "rl1 reg hall 00 0E *46").FirstGarbled!.Value.Fault);
    }

    [Fact]
    public void A_line_that_was_cut_goes_straight_on_with_the_next()
    {
        var log = Logs.Read("log", "rl1 reg hall " + Logs.Line("rl1 reg hall 05 4A") + " rest\n");
        Assert.Equal((1, 0x4A), (log.Garbled, log.Nodes[0].Last![0x05]!.Value));
        Assert.Equal((1, 30), (log.Nodes[0].Last![0x05]!.Place.From.Line, log.Nodes[0].Last![0x05]!.Place.From.Column));
    }

    [Fact]
    public void Bounds_hold()
    {
        Assert.Equal((1, 3), (Logs.Read("log", new string('x', 2_000_000) + "\n\nend").TooLong, Logs.Read("log", new string('x', 2_000_000) + "\n\nend").Lines));
        var crowd = Logs.Read("log", string.Join('\n', Enumerable.Range(0, LogLimits.MostNodes + 5).Select(i => Logs.Line($"rl1 beat node-{i} 1"))));
        Assert.Equal((LogLimits.MostNodes, 5), (crowd.Nodes.Count, crowd.PassedOver));
        var reader = new LogReader("log");
        var whole = Logs.Listing("hall", Logs.Configured("hall")).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        for (var i = 0; i < 5_000; i++)
            Assert.True(reader.Add(new(whole[i % whole.Length], i + 1)));
        var node = Assert.Single(reader.End().Nodes);
        Assert.True(node.ListingCount > 100);
        Assert.Equal(2 * LogLimits.KeptListings, node.Listings.Count);
    }

    [Theory]
    [InlineData("a\nb", 2)]
    [InlineData("a\r\nb\r\n", 2)]
    [InlineData("a\rb\r", 2)]
    [InlineData("\r\n\r\n", 2)]
    [InlineData("", 0)]
    public void Lines_end_as_in_other_files(string text, int lines) => Assert.Equal(lines, Logs.Read("log", text).Lines);

    // Every form of listing and the reports, with characters taken out, put in and exchanged: answered, and each place is one of the log's.
    [Fact]
    public void Damaged_logs_are_answered()
    {
        const string put = "0123456789ABCDEFx =:{},\n*/-[]rl\u00e9\u2028";
        var random = new Random(74);
        var logs = PlainFormTests.Forms().Select(row => row.Data.Item2).Append(Logs.Listing("hall", Logs.Configured("hall"))).ToList();
        for (var i = 0; i < 3_000; i++)
        {
            var text = logs[i % logs.Count].ToCharArray().ToList();
            for (var edits = random.Next(1, 30); edits > 0; edits--)
            {
                var at = random.Next(text.Count);
                if (random.Next(3) == 0)
                    text.RemoveAt(at);
                else
                    text[at] = put[random.Next(put.Length)];
            }
            var log = string.Concat(text);
            var lines = log.Count(c => c is '\n' or '\r') + 1;
            foreach (var finding in Logs.Judge("log", log, "hall").Judgement.Findings)
            {
                Assert.InRange(finding.Place.From.Line, 1, lines);
                Assert.True(finding.Place.End <= finding.Place.Source.Text.Length);
            }
        }
    }

    // Iot.Device.Bindings 4.2.0 against the data sheet, as its behaviours were noted when it drove the chip model.
    [Theory]
    [InlineData("RF_SETUP 02", "RL5902", "1 Mbps, planned 2 Mbps; bit 1 is set instead of bit 3")]
    [InlineData("EN_AA 00\nSETUP_RETR 03\nRF_CH 3C\nCONFIG 0A", "RL5903", "ENAA_P1 is 0 (not acknowledged), planned 1")]
    [InlineData("STATUS 1E\nFIFO_STATUS 21", "RL5904", "MAX_RT of `desk` is 1")]
    [InlineData("RF_CH 7E", "RL3901", "RF_CH of `desk` is 126, 2526 MHz, planned 60")]
    [InlineData("RX_PW_P0 00\nRX_PW_P1 08", "RL5903", "RX_PW_P0 is 0 (0 bytes), planned 8")]
    [InlineData("SETUP_AW 03\nRF_CH 3C", "RL4901", "AW of `desk` says 5 bytes, planned 4 bytes")]
    public void What_a_general_binding_does_otherwise_is_found(string listing, string rule, string says) =>
        Assert.Contains(Logs.Judge("log", listing, "desk").Judgement.Findings, one => one.Rule.Id == rule && one.Message.Contains(says, StringComparison.Ordinal));

    [Fact]
    public void An_address_is_compared_over_the_bytes_that_both_have()
    {
        var planned = Convert.ToHexString([.. Expected.Of(Logs.PlanOf("desk"))![0x10]!.Planned]);
        Assert.Equal(8, planned.Length);
        foreach (var (bytes, isPlanned) in new[] { (planned, true), (planned + "E7", true), (planned[..2], true), (planned[..6] + "00E7", false) })
            Assert.Equal(isPlanned ? NodeVerdict.AsPlanned : NodeVerdict.Differs, Logs.Judge("log", Logs.Line($"rl1 reg desk 10 {bytes}"), "desk").Judgement.Nodes[0].Verdict);
    }

    [Fact]
    public void Severities_of_the_manifest_and_the_command_line_hold()
    {
        var network = Logs.NetworkOf("hall");
        var log = Logs.Read("log", Logs.Listing("hall", Logs.Configured("hall")).Replace("0F *", "0A *", StringComparison.Ordinal));
        Assert.Equal(1, log.Garbled);
        var registers = Logs.Configured("hall");
        registers[0x05] = [0x4B];
        var read = Logs.Read("log", Logs.Listing("hall", registers));
        var options = new CheckOptions { Severities = ImmutableDictionary<string, Severity>.Empty.Add("RL3901", Severity.Warning) };
        Assert.Equal(Severity.Warning, Assert.Single(Judgement.Of(network, read, null, _ => [], options).Findings).Severity);
    }
}
