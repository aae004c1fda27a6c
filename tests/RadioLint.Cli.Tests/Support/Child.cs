using System.Diagnostics;

namespace RadioLint.Cli.Tests.Support;

/// <summary>The program as a process of its own.</summary>
internal sealed record Child(int Status, string Results, string Notes)
{
    private static string Program => Path.Combine(AppContext.BaseDirectory, "radiolint.dll");

    public static Child Run(string folder, params string[] args) => Wait(Start(folder, null, args));

    /// <summary>Runs with its standard input fed.</summary>
    public static Child RunWithInput(string folder, string input, params string[] args)
    {
        var process = Start(folder, null, args);
        process.StandardInput.Write(input);
        return Wait(process);
    }

    /// <summary>Runs in a shell: `$RADIOLINT` starts the program.</summary>
    public static Child Shell(string folder, string script) => Wait(Start(folder, script));

    /// <summary>Starts it by way of another program, and waits for nothing.</summary>
    public static Process Begin(string folder, string by, string[] first, string[] args)
    {
        var start = new ProcessStartInfo(by, [.. first, Dotnet, Program, .. args])
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        return Process.Start(start)!;
    }

    private static string Dotnet => Environment.ProcessPath is { } path && Path.GetFileNameWithoutExtension(path) == "dotnet" ? path : "dotnet";

    private static Process Start(string folder, string? script, params string[] args)
    {
        var start = new ProcessStartInfo
        {
            FileName = script is null ? Dotnet : "/bin/sh",
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var arg in script is null ? [Program, .. args] : (string[])["-c", script])
            start.ArgumentList.Add(arg);
        start.Environment["RADIOLINT"] = $"{Dotnet} {Program}";
        return Process.Start(start)!;
    }

    private static Child Wait(Process process)
    {
        using (process)
        {
            process.StandardInput.Close();
            var notes = process.StandardError.ReadToEndAsync();
            var results = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return new(process.ExitCode, results, notes.GetAwaiter().GetResult());
        }
    }
}
