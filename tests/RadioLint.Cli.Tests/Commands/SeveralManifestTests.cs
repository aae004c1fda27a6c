using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

public sealed class SeveralManifestTests
{
    [Fact]
    public void The_order_is_that_of_the_paths_whichever_is_ready_first()
    {
        using var folder = new TemporaryFolder();
        // The first is by far the slowest: the others are ready long before it.
        folder.Write("0.radio.yaml", "radiolint: 1\nnetwork: slow\nx: 1\nnodes:\n" + string.Concat(Enumerable.Range(0, 3000).Select(i => $"  n{i}: {{ board: esp32, wires: {i % 90 + 1} cm }}\n")));
        for (var i = 1; i < 60; i++)
            folder.Write($"{i:00}.radio.yaml", $"radiolint: 1\nnetwork: n{i}\n");
        var first = CommandRun.Of(folder.Path, "check", "--format", "json").Results;
        for (var run = 0; run < 5; run++)
            Assert.Equal(first, CommandRun.Of(folder.Path, "check", "--format", "json").Results);
        var files = CommandRun.Of(folder.Path, "check").Results.Split('\n').Where(line => line.Contains(": error ", StringComparison.Ordinal)).Select(line => line.Split(':')[0]);
        Assert.Equal(["0.radio.yaml", .. Enumerable.Range(1, 59).Select(i => $"{i:00}.radio.yaml")], files.Distinct(StringComparer.Ordinal));
    }

    [Fact]
    public void Faults_of_a_folders_file_stand_once_before_its_first_manifest_also_when_that_cannot_be_read()
    {
        using var folder = new TemporaryFolder();
        folder.Write("site/.radiolint.yaml", "rulez: {}\n");
        folder.Write("site/b.radio.yaml", "radiolint: 1\nnetwork: b\n");
        folder.Write("a.radio.yaml", "radiolint: 1\nnetwork: a\n");
        var found = CommandRun.Of(folder.Path, "check").Results.Split('\n').Where(line => line.Contains(": error ", StringComparison.Ordinal)).Select(line => line.Split(": error ")[0]);
        Assert.Equal(["a.radio.yaml:1:1", "site/.radiolint.yaml:1:1", "site/b.radio.yaml:1:1"], found);
    }
}
