using System.Collections.Concurrent;
using System.Diagnostics;
using Xunit;

namespace RadioLint.Cli.Tests.Support;

/// <summary>`check --watch` as a process of its own, whose lines a test waits for.</summary>
internal sealed class Watcher : IDisposable
{
    // Far more than it needs: only a test that fails waits that long.
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(2);

    private readonly Process process;
    private readonly BlockingCollection<string?> results = [];
    private readonly BlockingCollection<string?> notes = [];

    public Watcher(string folder, params string[] args)
    {
        // A shell that starts tests in the background has them ignore Ctrl-C, and children inherit that.
        process = Child.Begin(folder, "env", ["--default-signal=INT"], ["check", "--watch", .. args]);
        process.OutputDataReceived += (_, line) => results.Add(line.Data);
        process.ErrorDataReceived += (_, line) => notes.Add(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        Note("watching");
    }

    /// <summary>All results up to the next line with some words, that line included.</summary>
    public string Until(string words) => Read(results, words);

    /// <summary>All notes up to the next line with some words.</summary>
    public string Note(string words) => Read(notes, words);

    /// <summary>Ends it as Ctrl-C does.</summary>
    /// <returns>Its status and what it still said.</returns>
    public (int Status, string Said) Stop(string signal = "INT")
    {
        using (var kill = Process.Start("kill", [$"-{signal}", $"{process.Id}"]))
            kill.WaitForExit();
        Assert.True(process.WaitForExit(Limit), "it does not end");
        process.WaitForExit();
        return (process.ExitCode, string.Join('\n', results.Concat(notes).OfType<string>()));
    }

    public void Dispose()
    {
        if (!process.HasExited)
            process.Kill();
        process.Dispose();
        results.Dispose();
        notes.Dispose();
    }

    private static string Read(BlockingCollection<string?> lines, string words)
    {
        var read = new List<string>();
        while (lines.TryTake(out var line, Limit) && line is not null)
        {
            read.Add(line);
            if (line.Contains(words, StringComparison.Ordinal))
                return string.Join('\n', read);
        }
        throw new InvalidOperationException($"`{words}` does not come; what came is:\n{string.Join('\n', read)}");
    }
}
