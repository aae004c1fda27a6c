using System.Diagnostics;

namespace RadioLint.Benchmarks;

/// <summary>Timing that a person can follow: warm up, repeat, take the median.</summary>
internal static class Stopwatches
{
    /// <summary>
    /// The median processor time of each piece of work in this process, in milliseconds. They take turns, so that a machine which changes its
    /// speed changes it for all; and what else the machine does meanwhile does not count.
    /// </summary>
    public static double[] Medians(int rounds, params Action[] works)
    {
        var times = works.Select(_ => new double[rounds]).ToArray();
        foreach (var work in works)
            work();
        for (var round = 0; round < rounds; round++)
        {
            for (var i = 0; i < works.Length; i++)
                times[i][round] = ProcessorTime(works[i]);
        }
        return [.. times.Select(Median)];
    }

    /// <summary>The median wall time of a whole process, in milliseconds, after one that is not counted.</summary>
    public static double Process(int runs, string file, params string[] arguments)
    {
        var times = new double[runs + 1];
        for (var i = 0; i <= runs; i++)
        {
            var watch = Stopwatch.StartNew();
            Run(file, arguments);
            times[i] = watch.Elapsed.TotalMilliseconds;
        }
        return Median(times[1..]);
    }

    /// <summary>Runs a process to its end and returns its largest resident set, in bytes, as the system saw it; 0 when it cannot tell.</summary>
    public static long PeakMemory(string file, params string[] arguments)
    {
        if (!File.Exists("/usr/bin/time"))
            return 0;
        var text = Run("/usr/bin/time", ["-f", "%M", file, .. arguments]);
        var last = text.Trim().Split('\n')[^1];
        return long.TryParse(last, System.Globalization.CultureInfo.InvariantCulture, out var kilobytes) ? kilobytes * 1024 : 0;
    }

    private static double ProcessorTime(Action work)
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        var before = Environment.CpuUsage.TotalTime;
        work();
        return (Environment.CpuUsage.TotalTime - before).TotalMilliseconds;
    }

    private static double Median(double[] times)
    {
        Array.Sort(times);
        return times[times.Length / 2];
    }

    private static string Run(string file, string[] arguments)
    {
        var start = new ProcessStartInfo(file) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = System.Diagnostics.Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEnd();
        _ = output.Result;
        process.WaitForExit();
        return process.ExitCode is 0 or 1 ? errors : throw new InvalidOperationException($"{file} ended with {process.ExitCode}: {errors}");
    }
}
