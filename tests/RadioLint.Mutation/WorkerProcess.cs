using System.Diagnostics;

namespace RadioLint.Mutation;

/// <summary>A worker seen from outside.</summary>
internal sealed class WorkerProcess : IDisposable
{
    // A mutant that gathers without end must not take the machine with it: 1.5 GiB, in hexadecimal.
    private const string MostMemory = "60000000";

    private readonly Process process;

    public WorkerProcess(string core, string tests, int first)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        // Started as `dotnet RadioLint.Mutation.dll` the process is the host, which wants the assembly first.
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet")
            start.ArgumentList.Add(typeof(WorkerProcess).Assembly.Location);
        foreach (var argument in new[] { "--worker", core, tests, $"{first}" })
            start.ArgumentList.Add(argument);
        start.Environment["DOTNET_GCHeapHardLimit"] = MostMemory;
        // The apphost finds the runtime as this process did.
        start.Environment["DOTNET_ROOT"] = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(typeof(object).Assembly.Location)!, "..", "..", ".."));
        process = Process.Start(start)!;
        process.ErrorDataReceived += (_, line) => Fault += line.Data is { } text ? text + "\n" : "";
        process.BeginErrorReadLine();
    }

    public string Fault { get; private set; } = "";

    /// <summary>The next line; null when the process ended. Throws <see cref="TimeoutException"/> when there is none in time.</summary>
    public string? Read(TimeSpan limit) => process.StandardOutput.ReadLineAsync().WaitAsync(limit).GetAwaiter().GetResult();

    public string? Ask(string line, TimeSpan limit)
    {
        try
        {
            process.StandardInput.WriteLine(line);
            process.StandardInput.Flush();
        }
        catch (IOException)
        {
            return null;
        }
        return Read(limit);
    }

    public void Dispose()
    {
        process.Kill();
        process.WaitForExit();
        process.Dispose();
    }
}
