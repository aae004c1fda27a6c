using RadioLint.Findings;
using RadioLint.Readback;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Readback;

/// <summary>
/// Every field of every register, changed alone, against facts/radio-registers.csv (nRF24L01+ Product Specification 1.0, Table 28): the right rule finds it and
/// calls it by its name.
/// </summary>
public sealed class FieldTests
{
    private static readonly string[] Live = ["STATUS", "OBSERVE_TX", "RPD", "FIFO_STATUS"];

    private static IEnumerable<PublishedRow> Rows => Published.Rows("radio-registers.csv").Where(row => row["part"] == "nRF24L01+");

    private static IEnumerable<PublishedRow> Fields => Rows.Where(row => row["field"].Length > 0 && row["field"] is not ("Reserved" or "Obsolete"));

    [Fact]
    public void The_map_has_every_register_and_field_of_the_table()
    {
        var registers = Rows.Where(row => row["register"] != "TEST_RESERVED").Select(row => (row["address"], row["register"])).Distinct();
        Assert.Equal(registers.Select(one => $"{one.Item1} {one.Item2}"), RegisterMap.Registers.Select(one => FormattableString.Invariant($"0x{one.Address:X2} {one.Name}")));
        // Those of RF_SETUP differ from part to part and come from the part's profile.
        var published = Fields.Where(row => row["register"] != "RF_SETUP").Select(row => $"{row["register"]} {row["field"]} {row["msb"]} {row["lsb"]}").Order(StringComparer.Ordinal);
        var ours = RegisterMap.Registers.SelectMany(one => one.Fields.Select(field => FormattableString.Invariant($"{one.Name} {field.Name} {field.High} {field.Low}"))).Order(StringComparer.Ordinal);
        Assert.Equal(published, ours);
    }

    // Two receivers and two senders hold every register between them: fixed and dynamic lengths, full and short addresses.
    public static TheoryData<string> Nodes => ["hall", "cellar", "shed", "hive-1", "store"];

    [Theory, MemberData(nameof(Nodes))]
    public void A_field_that_differs_alone_is_found_by_its_rule_and_name(string node)
    {
        var expected = Expected.Of(Logs.PlanOf(node))!;
        var judged = 0;
        foreach (var row in Fields.Where(row => !Live.Contains(row["register"])))
        {
            var (address, low, high) = (Logs.Hex(row["address"])[0], (int)row.Number("lsb"), (int)row.Number("msb"));
            if (expected[address] is null)
                continue;
            for (var bit = low; bit <= Math.Min(high, 7); bit++)
            {
                var registers = Logs.Configured(node);
                registers[address][0] ^= (byte)(1 << bit);
                if (((1 << bit) & expected[address]!.Mask) == 0)
                {
                    Assert.Empty(Findings(node, registers));
                    continue;
                }
                var finding = Assert.Single(Findings(node, registers));
                var rule = RuleOf(row["register"], row["field"]);
                // A node that printed power-on values by chance, or what it had before, is told so.
                Assert.True(finding.Rule.Id == rule, $"{node} {row["register"]}.{row["field"]} bit {bit}: {finding.Rule.Id} {finding.Message}");
                Assert.Contains(NameIn(row["register"], row["field"]), finding.Message, StringComparison.Ordinal);
                Assert.Contains($"`{node}`", finding.Message, StringComparison.Ordinal);
                judged++;
            }
        }
        Assert.True(judged > 25, $"{judged}");
    }

    [Theory, MemberData(nameof(Nodes))]
    public void An_address_that_differs_in_one_bit_is_found(string node)
    {
        var expected = Expected.Of(Logs.PlanOf(node))!;
        foreach (var register in expected.Registers.Where(one => one.Address is >= 0x0A and <= 0x10))
        {
            for (var bit = 0; bit < register.Planned.Length * 8; bit++)
            {
                var registers = Logs.Configured(node);
                registers[register.Address][bit / 8] ^= (byte)(1 << (bit % 8));
                var found = Findings(node, registers);
                var isBack = register.Address == 0x0A && Logs.PlanOf(node).SendsAcknowledged;
                Assert.Equal(isBack ? "RL4903" : "RL4901", Assert.Single(found).Rule.Id);
            }
        }
    }

    [Theory, MemberData(nameof(Nodes))]
    public void Closed_pipes_and_what_the_plan_leaves_alone_are_free(string node)
    {
        var (registers, expected) = (Logs.Configured(node), Expected.Of(Logs.PlanOf(node))!);
        foreach (var address in registers.Keys.Where(address => expected[address] is null && address is >= 0x0A and <= 0x16).ToList())
            registers[address] = [.. registers[address].Select(one => (byte)(one ^ 0x15))];
        Assert.Empty(Findings(node, registers));
    }

    [Theory, MemberData(nameof(Nodes))]
    public void As_configured_nothing_is_found_and_every_written_register_is_compared(string node)
    {
        var (_, judgement) = Logs.Judge("log", Logs.Listing(node, Logs.Configured(node)), node);
        Assert.Empty(judgement.Findings);
        var one = Assert.Single(judgement.Nodes);
        var written = Logs.PlanOf(node).Image!.Frames.Select(frame => frame.Register).OfType<byte>().Distinct().Count(address => address != 0x07);
        Assert.Equal((NodeVerdict.AsPlanned, written, 4), (one.Verdict, one.Compared, one.Live.Length));
    }

    private static System.Collections.Immutable.ImmutableArray<Finding> Findings(string node, SortedDictionary<byte, byte[]> registers) =>
        Logs.Judge("log", Logs.Listing(node, registers), node).Judgement.Findings;

    private static string RuleOf(string register, string field) => register switch
    {
        "CONFIG" => "RL5901",
        "EN_RXADDR" => "RL4902",
        "SETUP_AW" => "RL4901",
        "RF_CH" => "RL3901",
        "RF_SETUP" => field.StartsWith("RF_DR", StringComparison.Ordinal) ? "RL5902" : "RL5903",
        _ when register.StartsWith("RX_ADDR", StringComparison.Ordinal) || register == "TX_ADDR" => "RL4901",
        _ => "RL5903",
    };

    // Rate and power are called by what they mean.
    private static string NameIn(string register, string field) => register != "RF_SETUP" ? field
        : field.StartsWith("RF_DR", StringComparison.Ordinal) ? "planned " : field == "RF_PWR" ? "power" : field;
}
