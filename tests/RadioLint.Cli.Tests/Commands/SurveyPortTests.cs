using System.Diagnostics;
using RadioLint.Cli.Terminal;
using RadioLint.Cli.Tests.Support;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>`survey --port` on a pseudo-terminal: what comes in, what is shown meanwhile, and every way in which it ends. Minutes pass as fast as the test's clock says.</summary>
public sealed class SurveyPortTests : IDisposable
{
    private static readonly string Manifest = Path.Combine(Repository.Root, "docs", "examples", "first-pair", "first-pair.radio.yaml");

    private readonly PseudoTerminal terminal = new();

    public void Dispose() => terminal.Dispose();

    [Fact]
    public async Task Sweeps_are_stamped_judged_and_the_time_ends_it()
    {
        // A minute in three seconds.
        var run = await Run(20, around => around, async () => await Talk(sweeps: 40), "--minutes", "1");
        Assert.Contains("of " + terminal.Port + ": ", run.Results, StringComparison.Ordinal);
        Assert.Contains("taken at hall", run.Results, StringComparison.Ordinal);
        Assert.Matches("  time  listened for [0-9]+ s at 1 place", run.Results);
        Assert.Contains($"radiolint: listening to {terminal.Port} for 1 min; Ctrl-C ends early, and what came is judged\n", run.Notes, StringComparison.Ordinal);
        // Without a terminal: plain lines, one for each tenth at most.
        Assert.Matches("radiolint: [0-9]+ s listened, [0-9]+ s left, [0-9]+ sweeps?\n", run.Notes);
        Assert.InRange(run.Notes.Split('\n').Count(line => line.Contains(" listened, ", StringComparison.Ordinal)), 1, 9);
        Assert.DoesNotContain('\u001b', run.Notes);
        Assert.DoesNotContain('\r', run.Notes);
        // The clock of the machine says when: RL3301 does not ask.
        Assert.DoesNotContain("nobody says when", run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public async Task On_a_terminal_bar_and_picture_are_written_in_place()
    {
        var run = await Run(20, around => around with { IsWatched = true, MovesCursor = true, Width = 80 }, async () => await Talk(sweeps: 40), "--minutes", "1");
        Assert.Matches("\\[#+[.]+\\] [0-9]+ s left, [0-9]+ sweeps", run.Notes);
        Assert.Contains("channel 0    10   20", run.Notes, StringComparison.Ordinal);
        // Up over what was there, and erased to the end of the screen; nothing is left of it at last.
        Assert.Matches("\r\u001b\\[[0-9]+A\u001b\\[J  busy\n", run.Notes);
        Assert.Matches("\r\u001b\\[[0-9]+A\u001b\\[J$", run.Notes);
    }

    [Fact]
    public async Task A_terminal_whose_cursor_stays_gets_the_bar_alone()
    {
        var run = await Run(20, around => around with { IsWatched = true }, async () => await Talk(sweeps: 40), "--minutes", "1");
        Assert.Matches("\\[#+[.]+\\] [0-9]+ s left", run.Notes);
        Assert.DoesNotContain('\u001b', run.Notes);
        Assert.DoesNotContain("channel 0    10   20", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_silent_port_ends_after_a_minute()
    {
        var run = await Run(60, around => around, () => Task.CompletedTask, "--minutes", "5");
        Assert.Equal((ExitStatus.NotDone, ""), (run.Status, run.Results));
        Assert.Contains($"{terminal.Port} has told no sweep for 60 s: look at the speed, the ground", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_goes_is_told_and_what_came_is_used()
    {
        var run = await Run(1, around => around, async () =>
        {
            await Talk(sweeps: 3);
            // What is not yet read goes with the port.
            await Task.Delay(3_000, TestContext.Current.CancellationToken);
            terminal.Dispose();
        });
        Assert.Contains($"the port {terminal.Port} has gone: was it unplugged, or its board switched off?; 3 sweeps came and are judged\n", run.Notes, StringComparison.Ordinal);
        Assert.Contains("3 sweeps, taken at hall", run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ctrl_C_ends_early_and_judges_what_came()
    {
        using var folder = new TemporaryFolder();
        // A shell that starts tests in the background has them ignore Ctrl-C, and children inherit that.
        using var process = Child.Begin(folder.Path, "env", ["--default-signal=INT"], ["survey", Manifest, "--port", terminal.Port, "--baud", "38400"]);
        var heard = new TaskCompletionSource();
        var notes = new List<string>();
        process.ErrorDataReceived += (_, line) =>
        {
            notes.Add(line.Data ?? "");
            if (line.Data?.Contains("listening to", StringComparison.Ordinal) is true)
                heard.TrySetResult();
        };
        process.BeginErrorReadLine();
        var results = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await heard.Task.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
        await Talk(sweeps: 5);
        await Task.Delay(3_000, TestContext.Current.CancellationToken);
        using (var kill = Process.Start("kill", ["-INT", $"{process.Id}"]))
            await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
        Assert.Contains("5 sweeps, taken at hall", await results, StringComparison.Ordinal);
        Assert.Contains(notes, note => note.Contains("ended early after ", StringComparison.Ordinal) && note.EndsWith("; 5 sweeps came and are judged", StringComparison.Ordinal));
        Assert.Equal(0, process.ExitCode);
    }

    private async Task Talk(int sweeps)
    {
        for (var number = 1; number <= sweeps; number++)
        {
            terminal.Write(PrintedSweep.Of("hall", number, channel => channel is >= 28 and <= 46 ? 12 : 0));
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }

    // The other end speaks once the port is open.
    private async Task<CommandRun> Run(int speed, Func<Surroundings, Surroundings> change, Func<Task> meanwhile, params string[] more)
    {
        var notes = new ListeningNotes();
        var run = Task.Run(() => CommandRun.Of(
            Repository.Root, around => change(around with { Notes = notes, Clock = new Hurried(speed) }), ["survey", Manifest, "--port", terminal.Port, "--baud", "38400", .. more]), TestContext.Current.CancellationToken);
        await Task.WhenAny(notes.Begun, run);
        await meanwhile();
        return await run.WaitAsync(TimeSpan.FromSeconds(90), TestContext.Current.CancellationToken) with { Notes = notes.ToString() };
    }

    /// <summary>A clock that runs so many times as fast.</summary>
    private sealed class Hurried(int times) : TimeProvider
    {
        public override long GetTimestamp() => base.GetTimestamp() * times;
    }
}
