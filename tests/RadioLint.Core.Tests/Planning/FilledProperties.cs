using System.Globalization;
using System.Text;
using CsCheck;
using RadioLint.Findings;
using RadioLint.Planning;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>
/// What is filled in makes no error and no warning: over all manifests of the tests with keys taken out. A rule that spoke of the manifest as it was opened, or before that,
/// may speak again. RADIOLINT_NETWORKS sets how many are opened, RADIOLINT_SEED the first seed.
/// </summary>
public sealed class FilledProperties
{
    private const int InCi = 1_500;

    // An allowance for what was open has nothing left to allow, which is for its writer to see.
    private const string IdleAllowance = "RL8103";

    // More packets than the channel carries leave too little time for delays that differ.
    private static readonly (string Before, string Now) Crowd = ("RL7001", "RL5105");

    // The other network is too near by frequency either way; the first rule speaks in the stead of the second while both have one rate.
    private static readonly (string Before, string Now) OneCause = ("RL4301", "RL3207");

    // One rule tells of delays too short for what rides back, the other of those too short for anything.
    private static readonly string[] TooShort = ["RL5102", "RL5103"];

    [Fact]
    public void Nothing_new_is_found()
    {
        var all = OpenedManifests.All().ToList();
        var wanted = Setting("RADIOLINT_NETWORKS", InCi);
        var first = (ulong)Setting("RADIOLINT_SEED", 1);
        var (filled, impossible, values) = (0, 0, 0);
        var faults = new List<(string Rule, string Text)>();
        for (ulong seed = first; filled + impossible < wanted && seed < first + (ulong)wanted * 4; seed++)
        {
            var dice = new PCG(1, seed);
            var (name, original, folder) = all[(int)dice.Next((uint)all.Count)];
            byte[]? Include(string below) => File.Exists(Path.Combine(folder, below)) ? File.ReadAllBytes(Path.Combine(folder, below)) : null;
            CheckResult Check(string text) => Linter.Check(new SourceText("x.radio.yaml", text), new CheckOptions { Include = Include });
            var opened = OpenedManifests.Opened(original, dice);
            var (before, partial) = (Check(original), Check(opened));
            if (partial.Network is not { } network || Unread(before) || Unread(partial))
                continue;
            var plan = Filling.Plan(network, null);
            if (!plan.Conflict.IsEmpty)
            {
                impossible++;
                continue;
            }
            var (pins, _) = PinChoices.Of(network);
            var written = ManifestWriter.Write(network, plan.Choices.AddRange(pins));
            filled++;
            values += written.Made.Length;
            // Two ends that cannot hear each other are no measure of a choice: it may suit the one alone.
            if (before.Findings.Any(finding => finding is { Severity: Severity.Error, Rule.StopsDelivery: true }))
                continue;
            var known = before.Findings.Concat(partial.Findings).Select(finding => finding.Rule.Id).ToHashSet();
            foreach (var finding in Check(written.Text).Findings.Where(IsHeavy).Where(finding => !known.Contains(finding.Rule.Id) && !IsExcused(finding.Rule.Id, known, opened) && !IsSoAtEveryRate(finding.Rule.Id, opened, Check)))
                faults.Add((finding.Rule.Id, $"{name}, seed {seed}: {finding.Place} {finding.Rule.Id} {finding.Message}\n--- opened\n{opened}\n--- filled\n{written.Text}\n"));
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{filled} filled with {values} values, {impossible} impossible"));
        Assert.True(faults.Count == 0, Shown(faults));
        Assert.True(filled * 10 > wanted * 8 && values > filled, $"{filled} {values} {impossible}");
    }

    private static bool IsHeavy(Finding finding) => finding.Severity >= Severity.Warning;

    // Where a timer makes pulses on SS it is an output that only the manifest's writer can state.
    private static bool IsExcused(string rule, HashSet<string> known, string opened) =>
        rule == IdleAllowance || (rule == Crowd.Now && known.Contains(Crowd.Before)) || (rule == OneCause.Now && known.Contains(OneCause.Before)) || (rule == "RL1011" && opened.Contains("Timer1: PWM", StringComparison.Ordinal));

    // Nobody wrote a rate, so nobody could tell that the times that are written do not suffice at any.
    private static bool IsSoAtEveryRate(string rule, string opened, Func<string, CheckResult> check) => opened.Contains("rate: open", StringComparison.Ordinal)
        && new[] { "250 kbps", "1 Mbps", "2 Mbps" }.All(rate => check(opened.Replace("rate: open", $"rate: {rate}", StringComparison.Ordinal)).Findings.Any(finding => finding.Rule.Id == rule || (TooShort.Contains(rule) && TooShort.Contains(finding.Rule.Id))));

    private static bool Unread(CheckResult result) => result.Findings.Any(finding => finding.Severity is Severity.Error && finding.Rule.Id.StartsWith("RL80", StringComparison.Ordinal));

    private static string Shown(List<(string Rule, string Text)> faults)
    {
        var text = new StringBuilder();
        foreach (var group in faults.GroupBy(fault => fault.Rule).OrderByDescending(group => group.Count()))
            text.Append(CultureInfo.InvariantCulture, $"{group.Key} {group.Count()} times\n");
        foreach (var group in faults.GroupBy(fault => fault.Rule))
            text.Append(string.Concat(group.Take(2).Select(fault => fault.Text)));
        return text.ToString();
    }

    private static long Setting(string name, long otherwise) =>
        long.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : otherwise;
}
