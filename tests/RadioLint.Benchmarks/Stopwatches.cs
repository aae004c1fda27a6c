using System.Diagnostics;

namespace RadioLint.Benchmarks;

/// <summary>Timing that a person can follow: warm up, repeat, take the median.</summary>
internal static class Stopwatches
{
    /// <summary>The median of several runs, in milliseconds, after one that is not counted.</summary>
    public static double Median(int runs, Action work)
    {
        work();
        var times = new double[runs];
        for (var i = 0; i < runs; i++)
        {
            GC.Collect();
            GC.WaitForPendingFinalizers();
            var watch = Stopwatch.StartNew();
            work();
            times[i] = watch.Elapsed.TotalMilliseconds;
        }
        Array.Sort(times);
        return times[runs / 2];
    }

    /// <summary>The median wall time of a whole process, in milliseconds.</summary>
    public static double Process(int runs, string file, params string[] arguments) => Median(runs, () => _ = Run(file, arguments));

    /// <summary>Runs a process to its end and returns its largest resident set, in bytes, as the system saw it; 0 when it cannot tell.</summary>
    public static long PeakMemory(string file, params string[] arguments)
    {
        if (!File.Exists("/usr/bin/time"))
            return 0;
        var text = Run("/usr/bin/time", ["-f", "%M", file, .. arguments]);
        var last = text.Trim().Split('\n')[^1];
        return long.TryParse(last, System.Globalization.CultureInfo.InvariantCulture, out var kilobytes) ? kilobytes * 1024 : 0;
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
