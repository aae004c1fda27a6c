using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>What only a process of its own shows: statuses, streams that end, files that cannot be read. Linux and macOS.</summary>
public sealed class ProcessTests
{
    private const string Fault = "radiolint: 1\nnetwork: x\n";

    [Fact]
    public void Statuses()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", Fault);
        Assert.Equal(1, Child.Run(folder.Path, "check").Status);
        Assert.Equal(0, Child.Run(folder.Path, "check", "--fail-on", "none").Status);
        Assert.Equal(2, Child.Run(folder.Path, "check", "gone").Status);
        Assert.Equal(2, Child.Run(folder.Path, "check", "--no-such").Status);
    }

    [Fact]
    public void Standard_input()
    {
        using var folder = new TemporaryFolder();
        var child = Child.RunWithInput(folder.Path, Fault, "check", "-", "--stdin-name", "shed.radio.yaml");
        Assert.Equal((1, ""), (child.Status, child.Notes));
        Assert.StartsWith("shed.radio.yaml:1:1: error RL8014: the network has no nodes\n    radiolint: 1\n", child.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Results_are_the_same_bytes_in_a_process_of_its_own()
    {
        var child = Child.Run(Repository.Root, "check", "docs/examples", "--format", "json", "--today", "2026-06-01");
        Assert.Equal(CommandRun.Of(Repository.Root, "check", "docs/examples", "--format", "json").Results, child.Results);
    }

    [Fact]
    public void A_reader_that_goes_away_is_no_fault()
    {
        using var folder = new TemporaryFolder();
        // More than a pipe holds, so that writing goes on after the reader has left.
        for (var i = 0; i < 400; i++)
            folder.Write($"{i:000}-{new string('x', 150)}.radio.yaml", Fault);
        var child = Child.Shell(folder.Path, "{ $RADIOLINT check; echo $? > status; } | head -n 1");
        Assert.StartsWith("000-", child.Results, StringComparison.Ordinal);
        Assert.Equal(("", "1\n"), (child.Notes, File.ReadAllText(folder.At("status"))));
    }

    [Fact]
    public void Results_that_cannot_be_written_are_status_2_and_one_line()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", Fault);
        var child = Child.Shell(folder.Path, "$RADIOLINT check > /dev/full");
        Assert.Equal((2, "radiolint: cannot write the results: no space is left\n"), (child.Status, child.Notes));
        child = Child.Shell(folder.Path, "$RADIOLINT check --format json > /dev/full");
        Assert.Equal((2, "radiolint: cannot write the results: no space is left\n"), (child.Status, child.Notes));
    }

    [Fact]
    public void A_file_that_cannot_be_read_does_not_keep_the_others_from_being_checked()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", Fault);
        // A process's own memory can be opened and not be read at its start, also by root, whom permissions do not stop.
        var child = Child.Run(folder.Path, "check", "/proc/self/mem", "x.radio.yaml");
        Assert.Equal((2, "radiolint: cannot read `/proc/self/mem`: the device reports an error\n"), (child.Status, child.Notes));
        Assert.Contains("x.radio.yaml:1:1: error RL8014", child.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_without_end_is_read_to_the_bound()
    {
        using var folder = new TemporaryFolder();
        var child = Child.Run(folder.Path, "check", "/dev/zero");
        Assert.Equal(1, child.Status);
        Assert.Contains("/dev/zero:1:1: error RL8001: the file has more than 16 MiB", child.Results, StringComparison.Ordinal);
    }
}
