using System.Diagnostics;
using RadioLint.Cli.Tests.Support;
using RadioLint.Readback;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>`readback --port` on a pseudo-terminal: what comes in, what does not, and a port that goes.</summary>
public sealed class PortTests : IDisposable
{
    private static readonly string Manifest = Path.Combine(Repository.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml");

    private readonly PseudoTerminal terminal = new();

    private static string Listing { get; } = string.Concat(
        new[] { "boot hall E6634F9D 98D6AA3C", "reg hall 00 0F", "reg hall 05 4A", "reg hall 07 0E", "end hall 3" }.Select(Line));

    public void Dispose() => terminal.Dispose();

    [Fact]
    public async Task A_listing_that_comes_in_pieces_is_judged_as_soon_as_it_is_whole()
    {
        var watch = Stopwatch.StartNew();
        var run = await Run(async () =>
        {
            foreach (var piece in Listing.Chunk(7))
            {
                terminal.Write(new string(piece));
                await Task.Delay(5, TestContext.Current.CancellationToken);
            }
        }, "--for", "50");
        Assert.Equal(ExitStatus.Passed, run.Status);
        Assert.StartsWith("hall: as planned, 2 registers compared (3 registers read, lines 2 to 4)\n", run.Results, StringComparison.Ordinal);
        Assert.Equal($"radiolint: listening to {terminal.Port}, 50 s at most; reset the board if it says nothing\n", run.Notes);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), $"{watch.Elapsed}");
    }

    [Fact]
    public async Task Findings_stand_in_the_port_and_tell_in_the_status()
    {
        var run = await Run(() => Send(Line("reg hall 05 4B") + Line("end hall 1")));
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.Contains($"{terminal.Port}:1:17: error RL3901", run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_silent_port_ends_after_the_stated_time()
    {
        var watch = Stopwatch.StartNew();
        var run = await Run(() => Task.CompletedTask, "--for", "1");
        Assert.Equal((ExitStatus.NotDone, ""), (run.Status, run.Results));
        Assert.Contains($"{terminal.Port} has said nothing for 1 s: look at the speed", run.Notes, StringComparison.Ordinal);
        Assert.InRange(watch.Elapsed.TotalSeconds, 1, 20);
    }

    [Fact]
    public async Task A_port_that_says_other_things_ends_as_well()
    {
        using var stop = new CancellationTokenSource();
        var chatter = Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                terminal.Write("hello\r\n");
                await Task.Delay(50);
            }
        }, TestContext.Current.CancellationToken);
        var run = await Run(() => Task.CompletedTask, "--for", "2");
        await stop.CancelAsync();
        await chatter;
        Assert.Equal((ExitStatus.NotDone, ""), (run.Status, run.Results));
        Assert.Contains("was listened to for 2 s, and no report of a register came: reset the board, or look at the speed", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_goes_is_told_and_what_came_is_used()
    {
        var run = await Run(async () =>
        {
            terminal.Write(Line("reg hall 05 4B") + "rl1 reg hall 06");
            await Task.Delay(600, TestContext.Current.CancellationToken);
            terminal.Dispose();
        });
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.Contains("error RL3901", run.Results, StringComparison.Ordinal);
        Assert.Contains($"the port {terminal.Port} has gone, and what it said so far is used: was it unplugged, or its board switched off?", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_goes_before_it_says_anything_leaves_nothing_to_judge()
    {
        var run = await Run(() =>
        {
            terminal.Dispose();
            return Task.CompletedTask;
        });
        Assert.Equal((ExitStatus.NotDone, ""), (run.Status, run.Results));
        Assert.EndsWith($"radiolint: the port {terminal.Port} has gone: was it unplugged, or its board switched off?\n", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Progress_is_written_over_where_somebody_watches()
    {
        var run = await Run(() => Send(Listing), around => around with { IsWatched = true });
        Assert.Contains("\rradiolint: 3 registers after ", run.Notes, StringComparison.Ordinal);
        Assert.EndsWith(" s\n", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_is_no_port()
    {
        var run = CommandRun.Of(Repository.Root, "readback", Manifest, "--port", "README.md", "--baud", "9600");
        Assert.Equal(ExitStatus.NotDone, run.Status);
        Assert.StartsWith("radiolint: cannot open `README.md` at 9600 baud: ", run.Notes, StringComparison.Ordinal);
    }

    private Task Send(string text)
    {
        terminal.Write(text);
        return Task.CompletedTask;
    }

    private Task<CommandRun> Run(Func<Task> meanwhile, params string[] more) => Run(meanwhile, around => around, more);

    // The other end speaks once the port is open: what comes before is lost on a real one too.
    private async Task<CommandRun> Run(Func<Task> meanwhile, Func<RadioLint.Cli.Terminal.Surroundings, RadioLint.Cli.Terminal.Surroundings> change, params string[] more)
    {
        var notes = new ListeningNotes();
        var run = Task.Run(() => CommandRun.Of(
            Repository.Root, around => change(around with { Notes = notes }), ["readback", Manifest, "--port", terminal.Port, "--baud", "38400", .. more]), TestContext.Current.CancellationToken);
        await Task.WhenAny(notes.Begun, run);
        await meanwhile();
        return await run.WaitAsync(TimeSpan.FromSeconds(90), TestContext.Current.CancellationToken) with { Notes = notes.ToString() };
    }

    private static string Line(string text) => $"rl1 {text} *{ReportText.CheckOf("rl1 " + text):X2}\r\n";
}
