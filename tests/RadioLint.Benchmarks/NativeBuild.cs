using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace RadioLint.Benchmarks;

/// <summary>Publishes projects of this repository natively, which needs a C compiler and the zlib headers.</summary>
internal static class NativeBuild
{
    /// <summary>The native binary of a project, made now.</summary>
    public static string Of(string project, string name)
    {
        var folder = Path.Combine(Root(), "tests", "RadioLint.Benchmarks", "bin", "native");
        Publish(Path.Combine(Root(), project), folder);
        return Path.Combine(folder, name);
    }

    /// <summary>Runs these measurements in a native build of their own; what it prints and how it ends are passed on.</summary>
    public static int RunMeasurements(string[] arguments)
    {
        using var process = Process.Start(Of("tests/RadioLint.Benchmarks", "RadioLint.Benchmarks"), arguments);
        process.WaitForExit();
        return process.ExitCode;
    }

    /// <summary>The folder of this repository.</summary>
    public static string Root([CallerFilePath] string here = "")
    {
        for (var folder = Path.GetDirectoryName(here); folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, "RadioLint.sln")))
                return folder;
        }
        throw new InvalidOperationException("RadioLint.sln was not found above the benchmarks");
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
}
