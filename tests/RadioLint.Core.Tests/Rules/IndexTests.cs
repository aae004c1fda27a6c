using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>The index of all rules, and what holds for each of them.</summary>
public sealed partial class IndexTests
{
    private static readonly string[] Modules =
        ["", "wiring and pins", "supply", "channel, spectrum, regulation", "addressing and pipes", "link", "payload", "capacity, energy, range", "manifest and generated files", "host code"];

    /// <summary>The list of design: a verdict of one of these as an error means that a packet cannot be delivered as declared.</summary>
    private static readonly string[] LinkErrors =
    [
        "RL3001", "RL4001", "RL4101", "RL4102", "RL4103", "RL4104", "RL4106", "RL4201", "RL4202", "RL4203", "RL4206", "RL5001", "RL5102", "RL5103",
        "RL5107", "RL5108", "RL5302", "RL5304", "RL6105",
    ];

    private static readonly string[] FixedRules = ["RL8001", "RL8002", "RL8003", "RL8004", "RL8005", "RL8006", "RL8007", "RL8012"];

    [Fact]
    public void The_index_lists_exactly_the_rules_that_exist()
    {
        var file = Path.Combine(Fixtures.Pages, "README.md");
        var written = File.Exists(file) ? File.ReadAllText(file) : "";
        const string mark = "<!-- written from the catalogue -->\n";
        var head = written.Contains(mark, StringComparison.Ordinal) ? written[..(written.IndexOf(mark, StringComparison.Ordinal) + mark.Length)] : mark;
        var expected = head + Table();
        Golden.Compare(file, expected);
    }

    [Fact]
    public void Ids_are_unique_and_well_formed()
    {
        Assert.Equal(Catalogue.All.Length, Catalogue.All.Select(rule => rule.Id).Distinct(StringComparer.Ordinal).Count());
        Assert.All(Catalogue.All, rule => Assert.Matches("^RL[1-9][0-9]{3}$", rule.Id));
        Assert.All(Catalogue.All, rule => Assert.False(string.IsNullOrWhiteSpace(rule.Limit)));
        Assert.All(Catalogue.All, rule => Assert.DoesNotMatch("[.!]$", rule.Title));
    }

    [Fact]
    public void A_file_of_rules_is_called_as_its_class()
    {
        var folder = Path.Combine(Fixtures.Root, "src", "RadioLint.Core", "Rules");
        foreach (var rule in Catalogue.Rules)
            Assert.Single(Directory.EnumerateFiles(folder, rule.GetType().Name + ".cs", SearchOption.AllDirectories));
    }

    [Fact]
    public void Rules_that_stop_delivery_are_those_of_the_list() =>
        Assert.Equal(LinkErrors, Catalogue.All.Where(rule => rule.StopsDelivery).Select(rule => rule.Id));

    // Where a file was not read as meant, its other findings cannot be trusted either.
    [Fact]
    public void Rules_that_nobody_can_switch_off_are_those_of_the_list() =>
        Assert.Equal(FixedRules, Catalogue.All.Where(rule => rule.IsFixed).Select(rule => rule.Id).Order(StringComparer.Ordinal));

    // Two networks on one channel and one prefix can only be seen beside each other.
    [Fact]
    public void Rules_that_compare_networks_are_those_of_the_list() =>
        Assert.Equal(["RL3207", "RL4301"], Catalogue.All.Where(rule => rule.ComparesNetworks).Select(rule => rule.Id).Order(StringComparer.Ordinal));

    // An `allow` entry may call a node by its own name or by that of its entry; each once.
    [Fact]
    public void A_finding_names_its_nodes_once()
    {
        const string text = """
            radiolint: 1
            network: cellar
            region: GB
            air: { channel: 74, rate: 1 Mbps }
            nodes:
              hall: { board: atmega328p, pins: { ce: D9 } }
              hive: { each: 1..2, board: atmega328p, pins: { ce: D9 } }
            """;
        var unknown = Linter.Check("names.radio.yaml", Encoding.UTF8.GetBytes(text), new()).Findings.Where(finding => finding.Rule.Id == "RL1001").Select(finding => finding.NodeNames).ToList();
        Assert.Equal([["hall"], ["hive-1", "hive"]], unknown.Select(names => names.ToArray()));
    }

    [Fact]
    public void What_a_rule_silences_exists() =>
        Assert.All(Catalogue.All.SelectMany(rule => rule.Silences), id => Assert.Matches("^RL[1-9][0-9]{3}$", id));

    [Fact]
    public void Messages_keep_the_voice()
    {
        var findings = Fixtures.All().Where(file => file.EndsWith(".yaml", StringComparison.Ordinal) || file.EndsWith(".json", StringComparison.Ordinal))
            .SelectMany(file => Linter.Check(file, File.ReadAllBytes(Path.Combine(Fixtures.Rules, file)), new() { Today = new(2026, 6, 1) }).Findings)
            .ToList();
        Assert.True(findings.Count > 60);
        foreach (var finding in findings)
        {
            Assert.DoesNotMatch("[\r\n]|[.!]$|[Pp]lease|^$", finding.Message);
            Assert.DoesNotMatch("[\r\n]|[.!]$|[Pp]lease|^$", finding.Help);
            Assert.Matches("^[a-z]", finding.Help);
            if (finding.Rule.Id.StartsWith("RL30", StringComparison.Ordinal) || finding.Rule.Id.StartsWith("RL31", StringComparison.Ordinal))
                Assert.EndsWith("; the rules of the place of use govern", finding.Help, StringComparison.Ordinal);
            Assert.All(finding.Fixes, fix => Assert.Matches("^[A-Z][a-z]+ ", fix.Title));
        }
    }

    // A figure is somewhere in the sentence wherever the limit has one.
    [Fact]
    public void Messages_say_the_number()
    {
        var silent = new List<string>();
        foreach (var rule in Catalogue.Rules.Where(rule => Digits().IsMatch(WithoutCitation(rule.Descriptor.Limit))))
        {
            var files = Fixtures.All().Where(file => file.StartsWith(rule.Descriptor.Id + "/", StringComparison.Ordinal));
            var messages = files.SelectMany(file => Linter.Check(file, File.ReadAllBytes(Path.Combine(Fixtures.Rules, file))).Findings)
                .Where(finding => finding.Rule.Id == rule.Descriptor.Id).Select(finding => finding.Message).ToList();
            if (messages.Count > 0 && !messages.Exists(message => Digits().IsMatch(message)))
                silent.Add(rule.Descriptor.Id);
        }
        Assert.Empty(silent);
    }

    private static string WithoutCitation(string limit) => limit.Split('(', ';')[0];

    private static string Table()
    {
        var text = new StringBuilder();
        foreach (var module in Catalogue.All.GroupBy(rule => rule.Id[2] - '0'))
        {
            text.Append(CultureInfo.InvariantCulture, $"\n## RL{module.Key}xxx {Modules[module.Key]}\n\n| Rule | Severity | Title |\n|---|---|---|\n");
            foreach (var rule in module)
                text.Append(CultureInfo.InvariantCulture, $"| [{rule.Id}]({rule.Id}.md) | {Word(rule.Severity)} | {rule.Title} |\n");
        }
        return text.ToString();
    }

    private static string Word(Severity severity) => severity.ToString().ToLowerInvariant();

    [GeneratedRegex("[0-9]")]
    private static partial Regex Digits();
}
