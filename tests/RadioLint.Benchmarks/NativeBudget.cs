using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace RadioLint.Benchmarks;

/// <summary>The native build as a whole process. Publishes it first, which needs a C compiler and the zlib headers.</summary>
internal static class NativeBudget
{
    public static void Measure(Budgets budgets, string thousandNodes)
    {
        var root = Root();
        var folder = Path.Combine(root, "tests", "RadioLint.Benchmarks", "bin", "native");
        var binary = Path.Combine(folder, "radiolint");
        Publish(Path.Combine(root, "src", "RadioLint.Cli"), folder);
        var example = Path.Combine(root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml");
        budgets.Note("native build, size", $"{new FileInfo(binary).Length / 1024.0 / 1024.0:0.0} MiB");
        budgets.AtMost("check of the example, whole process, native", Stopwatches.Process(21, binary, "check", example), 25, " ms");

        var work = Directory.CreateTempSubdirectory("radiolint-");
        try
        {
            var thousand = Path.Combine(work.FullName, "thousand.radio.yaml");
            File.WriteAllText(thousand, thousandNodes);
            budgets.Note("check of 1,000 nodes written out, whole process, native", $"{Stopwatches.Process(9, binary, "check", thousand):0} ms");
            var most = Path.Combine(work.FullName, "most.radio.yaml");
            File.WriteAllText(most, LargeManifest.WrittenOut(15_000));
            var peak = Stopwatches.PeakMemory(binary, "check", most);
            if (peak > 0)
                budgets.AtMost("peak memory for 15,000 nodes written out, in sizes of the file, native", peak / (double)new FileInfo(most).Length, 20, "x");
        }
        finally
        {
            work.Delete(recursive: true);
        }
    }

    private static void Publish(string project, string folder)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true };
        foreach (var argument in new[] { "publish", project, "-c", "Release", "-r", "linux-x64", "-o", folder, "-v", "q", "--nologo" })
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"the native build failed:\n{output}");
    }

    private static string Root([CallerFilePath] string here = "")
    {
        for (var folder = Path.GetDirectoryName(here); folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, "RadioLint.sln")))
                return folder;
        }
        throw new InvalidOperationException("RadioLint.sln was not found above the benchmarks");
    }
}
