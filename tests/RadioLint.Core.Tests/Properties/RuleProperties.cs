using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Properties;

/// <summary>
/// What holds for every rule on any network: no exception, the same findings whatever the order of nodes and keys, and no fix that makes an error elsewhere.
/// RADIOLINT_NETWORKS sets how many are drawn, RADIOLINT_SEED the first seed.
/// </summary>
public sealed class RuleProperties
{
    private const int InCi = 400;

    // What the first hides the second judges once it is mended: it was wrong before and nobody could tell, or it has a finding of its own that is mended next.
    private static readonly HashSet<(string Mended, string Shown)> Reveals =
    [
        ("RL1002", "RL1011"), // of two on the select input the radio's line moves away, and the other is judged by itself
        ("RL1003", "RL1025"), // a pin that the board has is of some voltage
        ("RL1006", "RL1011"), // a unit that is known has a select input
        ("RL1019", "RL1004"), ("RL1019", "RL1002"), ("RL1019", "RL1211"), // a pin that is known is free or not, and the select that is asked for or not
        ("RL2009", "RL2008"), // enough goes in, and more comes out than is stated
        ("RL4001", "RL4003"), ("RL4001", "RL4008"), // written addresses are compared with a width once it is one that a radio has
        ("RL4001", "RL4202"), // both ends of a link have a width that no radio has
        ("RL4104", "RL4201"), ("RL4106", "RL4201"), // a pipe that is open has an address
        ("RL4106", "RL4202"), ("RL4106", "RL4101"), // the ends of a link are compared once a pipe takes its packets, and what pipes 2 to 5 hold with the pipe 1 that is open
        ("RL5001", "RL2005"), // currents are known once the rate is one that the part has
        ("RL5107", "RL5101"), // the sender's own pipe 0 is judged once it waits for an acknowledgement
        ("RL4106", "RL5107"), // what rides back is judged once its packet arrives
        ("RL4202", "RL5106"), // how long giving up takes matters once somebody waits for an acknowledgement
        ("RL6001", "RL4202"), // lengths are compared once they are known
        ("RL4201", "RL4202"), // the ends of a link are compared once they are its ends
        ("RL4201", "RL4203"), ("RL4202", "RL4203"), ("RL5204", "RL4203"), // two receivers answer once both understand
        ("RL4201", "RL4205"), ("RL4106", "RL4205"), // who sent is asked once packets arrive
        ("RL4205", "RL6202"), // kinds are compared by their first field once senders are told apart
        ("RL5001", "RL5106"), // times on air are known once the rate is one that the part has
        ("RL5304", "RL4202"), // a length that the sender does not tell is compared with the pipe's
    ];

    [Fact]
    public void Every_rule_answers_and_the_order_of_keys_does_not_matter()
    {
        var (clean, wrong, unread) = (0, 0, 0);
        var faults = new Faults();
        foreach (var seed in Seeds())
        {
            var draw = new NetworkDraw(seed);
            var root = draw.Next();
            var text = Trees.Write(root);
            var found = faults.Guard(seed, text, () => Check(text));
            // Of two nodes that become one identifier the first holds.
            if (found is null || found.Value.Findings.Any(finding => finding.Rule.Id == "RL8015"))
                continue;
            _ = found.Value.Network is null ? unread++ : found.Value.Findings.Any(finding => finding.Severity is Severity.Error) ? wrong++ : clean++;
            var other = Trees.Write((YamlDotNet.RepresentationModel.YamlMappingNode)Trees.Shuffled(root, draw.Below));
            if (faults.Guard(seed, other, () => Check(other)) is not { } again)
                continue;
            var (one, two) = (Said(found.Value), Said(again));
            if (!one.SequenceEqual(two))
                faults.Add(seed, $"only before: {string.Join("\n  ", one.Except(two))}\nonly after: {string.Join("\n  ", two.Except(one))}\n{text}\n# in another order\n{other}");
        }
        faults.Close(string.Create(CultureInfo.InvariantCulture, $"{clean} without errors, {wrong} with errors, {unread} not read"));
        Assert.True(clean * 8 > clean + wrong && wrong * 8 > clean + wrong, $"{clean} {wrong} {unread}");
    }

    [Fact]
    public void No_fix_makes_an_error_elsewhere()
    {
        var (fixes, made) = (0, 0);
        var faults = new Faults();
        foreach (var seed in Seeds())
        {
            var text = Trees.Write(new NetworkDraw(seed).Next());
            if (faults.Guard(seed, text, () => Check(text)) is not { Network: not null } before)
                continue;
            // What could not be read as meant hides what is judged next; such a fix shows more, and makes nothing.
            if (before.Findings.Any(finding => finding.Severity is Severity.Error && finding.Rule.Id.StartsWith("RL80", StringComparison.Ordinal)))
                continue;
            foreach (var finding in before.Findings)
            {
                foreach (var fix in finding.Fixes)
                {
                    fixes++;
                    var mended = Apply(text, fix);
                    if (faults.Guard(seed, mended, () => Check(mended)) is not { } after)
                        continue;
                    var errors = Errors(after).Except(Errors(before))
                        .Where(error => !Reveals.Contains((finding.Rule.Id, error[..6])) && !IsOfPayloads(finding.Rule.Id, error[..6]) && !Says(fix, error[..6])).ToList();
                    if (errors.Count == 0)
                        continue;
                    made++;
                    faults.Add(seed, $"{finding.Rule.Id} {finding.Message}\nfix: {fix.Title}\nmakes: {string.Join("\n  ", errors)}\n{text}\n# mended\n{mended}");
                }
            }
        }
        faults.Close(string.Create(CultureInfo.InvariantCulture, $"{fixes} fixes tried, {made} made an error"));
        Assert.True(fixes > 50, $"{fixes}");
    }

    // Payloads are judged once their types have a width: their length and layout, how long they are on air, the names of choices.
    private static bool IsOfPayloads(string mended, string shown) => string.CompareOrdinal(mended, "RL6001") >= 0 && string.CompareOrdinal(mended, "RL6007") <= 0
        && (shown is "RL4205" or "RL5106" or "RL5307" or "RL5406" or "RL7001" or "RL8015" || shown.StartsWith("RL61", StringComparison.Ordinal) || shown.StartsWith("RL62", StringComparison.Ordinal));

    // A fix that makes sending take longer says so.
    private static bool Says(Fix fix, string rule) => rule is "RL5102" or "RL5106" or "RL5406" or "RL6105" or "RL7001"
        && (fix.Title.EndsWith("packets get longer", StringComparison.Ordinal) || fix.Title.EndsWith("a lost packet is repeated", StringComparison.Ordinal));

    // IDs that come more often than before: the words may tell another amount.
    private static List<string> Errors((ImmutableArray<Finding> Findings, Model.Network? Network) result) =>
        [.. result.Findings.Where(finding => finding.Severity is Severity.Error).GroupBy(finding => finding.Rule.Id).SelectMany(group => group.Select((_, i) => string.Create(CultureInfo.InvariantCulture, $"{group.Key} #{i + 1}")))];

    // Where one place concerns several nodes the first speaks for all, with its board, and lists go in the order of the manifest: such names and the order of words may
    // differ.
    private static List<string> Said((ImmutableArray<Finding> Findings, Model.Network? Network) result)
    {
        var names = result.Network?.Nodes.SelectMany(node => new[] { node.Name, node.Entry, node.Label, node.Board?.Name ?? "" }).ToHashSet() ?? [];
        return [.. result.Findings.Select(finding => $"{finding.Rule.Id} {finding.Severity} {string.Join(" ", finding.Message.Split(' ').Select(word => names.Contains(word.Trim('`', ',', ';')) ? "NODE" : word.Trim(',', '(', ')')).Order(StringComparer.Ordinal))}")
            .Order(StringComparer.Ordinal)];
    }

    private static (ImmutableArray<Finding> Findings, Model.Network? Network) Check(string text)
    {
        var result = Linter.Check(new SourceText("draw.radio.yaml", text), new() { Today = new(2026, 6, 1) });
        return (result.Findings, result.Network);
    }

    private static string Apply(string text, Fix fix)
    {
        foreach (var edit in fix.Edits.OrderByDescending(edit => edit.Place.Start))
            text = text[..edit.Place.Start] + edit.NewText + text[edit.Place.End..];
        return text;
    }

    private static IEnumerable<ulong> Seeds()
    {
        var first = (ulong)Setting("RADIOLINT_SEED", 1);
        return Enumerable.Range(0, (int)Setting("RADIOLINT_NETWORKS", InCi)).Select(i => (first * 1_000_003) + (ulong)i);
    }

    private static long Setting(string name, long otherwise) =>
        long.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : otherwise;

    private sealed class Faults
    {
        private static readonly int Take = (int)Setting("RADIOLINT_SHOWN", 20);
        private readonly List<string> list = [];

        public void Add(ulong seed, string what) => list.Add(string.Create(CultureInfo.InvariantCulture, $"seed {seed}\n{what}"));

        /// <summary>Null when it failed, which is a fault.</summary>
        public T? Guard<T>(ulong seed, string text, Func<T> work) where T : struct
        {
            try
            {
                return work();
            }
            catch (Exception fault) when (fault is not OperationCanceledException)
            {
                Add(seed, $"{fault}\n{text}");
                return null;
            }
        }

        public void Close(string counts)
        {
            TestContext.Current.TestOutputHelper?.WriteLine(counts);
            var text = new StringBuilder(counts).Append(CultureInfo.InvariantCulture, $", {list.Count} faults\n");
            foreach (var fault in list.Take(Take))
                text.Append("---- ").Append(fault).Append('\n');
            Assert.True(list.Count == 0, text.ToString());
        }
    }
}
