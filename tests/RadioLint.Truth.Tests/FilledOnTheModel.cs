using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using RadioLint.Findings;
using RadioLint.Planning;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Truth;

/// <summary>
/// What `fill` makes of networks with keys taken out delivers on the chip model, and brings no error and no warning. RADIOLINT_NETWORKS sets how many are drawn,
/// RADIOLINT_SEED the first seed.
/// </summary>
public sealed partial class FilledOnTheModel
{
    private const int InCi = 1_000;

    [Fact]
    public void A_filled_network_delivers()
    {
        var wanted = Setting("RADIOLINT_NETWORKS", InCi);
        var dice = new Dice((ulong)Setting("RADIOLINT_SEED", 1) * 77_777UL);
        var draw = new DraftDraw((ulong)Setting("RADIOLINT_SEED", 1) * 1_000_003UL);
        var (filled, impossible, values) = (0, 0, 0);
        var faults = new StringBuilder();
        while (filled < wanted && impossible < wanted)
        {
            // Whole it delivers; what then does not is the choices' doing.
            var whole = draw.Next().Text();
            if (Verdict.Of(whole) is not { Errors.Count: 0, Fault: null })
                continue;
            var partial = Opened(whole, dice);
            // A rate that is not written is 1 Mbps: nodes with a rate of their own may then be deaf, which no choice may change.
            var before = Linter.Check(new SourceText("draw.radio.yaml", partial));
            if (before.Findings.Any(finding => finding.Rule.StopsDelivery && finding.Severity is Severity.Error))
                continue;
            var network = before.Network!;
            var plan = Filling.Plan(network, null);
            if (!plan.Conflict.IsEmpty)
            {
                impossible++;
                continue;
            }
            var written = ManifestWriter.Write(network, plan.Choices.AddRange(PinChoices.Of(network).Choices));
            filled++;
            values += written.Made.Length;
            var result = Linter.Check(new SourceText("draw.radio.yaml", written.Text));
            var known = new[] { whole, partial }.SelectMany(Heavy).ToHashSet();
            var fault = !written.Left.IsEmpty ? $"left: {written.Left[0].Why}"
                : Heavy(written.Text).FirstOrDefault(rule => !known.Contains(rule)) is { } rule ? $"new {rule}"
                : OnTheModel.FaultOf(result.Network!);
            if (fault is not null)
                faults.Append(CultureInfo.InvariantCulture, $"{fault}\n--- opened\n{partial}\n--- filled\n{written.Text}\n");
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{filled} filled with {values} values deliver, {impossible} impossible"));
        Assert.True(faults.Length == 0, faults.ToString()[..Math.Min(faults.Length, 12_000)]);
        Assert.True(filled == wanted && values > filled * 3, $"{filled} {values} {impossible}");
    }

    // Lines of the drawn form: each goes, is left open, or stays; links get a way, so that there is a margin to choose by.
    private static string Opened(string whole, Dice dice)
    {
        var text = new StringBuilder();
        foreach (var line in whole.Split('\n')[..^1])
        {
            var now = line switch
            {
                _ when line.StartsWith("  channel:", StringComparison.Ordinal) => new[] { line, "  channel: open", "  channel: open", null }[dice.Below(4)],
                _ when line.StartsWith("  rate:", StringComparison.Ordinal) => new[] { line, line, "  rate: open", null }[dice.Below(4)],
                _ when line.StartsWith("    pins:", StringComparison.Ordinal) => new[] { line, "    pins: { ce: GPIO27 }", "    pins: { csn: GPIO5 }", null }[dice.Below(4)],
                _ when line.StartsWith("  retry:", StringComparison.Ordinal) && dice.Below(2) == 0 => null,
                _ when line.StartsWith("  - { from:", StringComparison.Ordinal) && dice.Below(2) == 0 =>
                    Every().Replace(line, string.Create(CultureInfo.InvariantCulture, $"every: 1 min, distance: {1 + dice.Below(40)} m")),
                _ => line,
            };
            // Without any key of its own `air` goes too.
            if (now is not null)
                text.Append(now).Append('\n');
        }
        return text.ToString().Replace("air:\nnodes:", "nodes:", StringComparison.Ordinal);
    }

    private static IEnumerable<string> Heavy(string text) => Linter.Check(new SourceText("draw.radio.yaml", text)).Findings
        .Where(finding => finding.Severity >= Severity.Warning).Select(finding => finding.Rule.Id);

    private static long Setting(string name, long otherwise) =>
        long.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : otherwise;

    [GeneratedRegex("every: 1 min")]
    private static partial Regex Every();
}
