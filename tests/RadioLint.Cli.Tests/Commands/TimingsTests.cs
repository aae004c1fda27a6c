using System.Globalization;
using RadioLint.Cli.Tests.Support;
using RadioLint.Rules;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

public sealed class TimingsTests
{
    [Fact]
    public void Reading_every_rule_and_settling_are_listed_by_cost_with_what_they_noticed()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", "radiolint: 1\nnetwork: x\nregin: GB\nair: { channel: 126 }\nnodes: { hall: { board: esp32 } }\n");
        var plain = CommandRun.Of(folder.Path, "check");
        var run = CommandRun.Of(folder.Path, around => around with { Clock = new EachLapLonger() }, "check", "--timings");
        Assert.Equal((plain.Status, plain.Results), (run.Status, run.Results));

        var lines = run.Notes.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("      time   share  findings  work", lines[0]);
        // Each piece takes 1 ms more than the one before it, so the dearest first is the last first.
        var expected = new[] { Linter.SettlingWork }.Concat(Catalogue.Rules.Reverse().Select(rule => $"{rule.Descriptor.Id} {rule.Descriptor.Title}")).Append(Linter.ReadingWork).ToList();
        Assert.Equal(expected, lines[1..^1].Select(line => line[30..]));
        var n = expected.Count;
        Assert.StartsWith(string.Create(CultureInfo.InvariantCulture, $"{n,3}.000 ms  "), lines[1], StringComparison.Ordinal);
        Assert.Equal(string.Create(CultureInfo.InvariantCulture, $"{n * (n + 1) / 2,3}.000 ms  in all, added up over 1 manifest"), lines[^1]);
        Assert.InRange(lines[1..^1].Sum(line => double.Parse(line[12..16], CultureInfo.InvariantCulture)), 97, 103);
        // `regin` while reading, the channel by its rule.
        Assert.EndsWith("  1  reading", lines[^2], StringComparison.Ordinal);
        Assert.Contains(lines, line => line.Contains("  1  RL3001 ", StringComparison.Ordinal));
    }

    [Fact]
    public void Several_manifests_are_added_up()
    {
        using var folder = new TemporaryFolder();
        for (var i = 0; i < 5; i++)
            folder.Write($"{i}.radio.yaml", "radiolint: 1\nnetwork: x\nregin: GB\n");
        var lines = CommandRun.Of(folder.Path, "check", "--timings").Notes.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Contains(lines, line => line.EndsWith("  10  reading", StringComparison.Ordinal));
        Assert.EndsWith("in all, added up over 5 manifests", lines[^1], StringComparison.Ordinal);
    }

    /// <summary>A clock by which each lap takes 1 ms more than the one before.</summary>
    private sealed class EachLapLonger : TimeProvider
    {
        private long at;
        private long step;

        public override long TimestampFrequency => 1000;

        public override long GetTimestamp() => at += step++;
    }
}
