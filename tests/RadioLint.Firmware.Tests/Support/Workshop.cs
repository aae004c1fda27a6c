using System.ComponentModel;
using System.Diagnostics;
using Xunit;

namespace RadioLint.Tests.Firmware.Support;

/// <summary>A folder for one test's files, removed afterwards, and programs run in it.</summary>
public sealed class Workshop : IDisposable
{
    // Compilers are the slow part and use a core each.
    private static readonly SemaphoreSlim Cores = new(2);

    public string Folder { get; } = Directory.CreateTempSubdirectory("radiolint-").FullName;

    public string Write(string name, string text)
    {
        var path = Path.Combine(Folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return path;
    }

    public void WriteAll(IEnumerable<KeyValuePair<string, string>> files)
    {
        foreach (var (name, text) in files)
            Write(name, text);
    }

    /// <summary>Runs a program to its end. A program that is missing fails the test.</summary>
    public Task<(int Status, string Output)> Run(string program, params IEnumerable<string> arguments) => Run(program, arguments, [], "");

    /// <summary>The same with an environment and something to read; what it says on both outputs comes back.</summary>
    public async Task<(int Status, string Output)> Run(
        string program, IEnumerable<string> arguments, IEnumerable<(string Name, string Value)> environment, string input)
    {
        await Cores.WaitAsync(TestContext.Current.CancellationToken);
        try
        {
            var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = Folder, RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true };
            start.Environment["LC_ALL"] = "C";
            foreach (var (name, value) in environment)
                start.Environment[name] = value;
            using var process = Process.Start(start)!;
            var output = process.StandardOutput.ReadToEndAsync();
            var errors = process.StandardError.ReadToEndAsync();
            await process.StandardInput.WriteAsync(input);
            process.StandardInput.Close();
            await process.WaitForExitAsync();
            return (process.ExitCode, await output + await errors);
        }
        catch (Win32Exception)
        {
            Assert.Fail($"{program} is not there: run tests/run.sh, which installs it");
            throw;
        }
        finally
        {
            Cores.Release();
        }
    }

    /// <summary>Runs a program that must succeed, and returns what it prints.</summary>
    public async Task<string> MustRun(string program, params IEnumerable<string> arguments)
    {
        var (status, output) = await Run(program, arguments);
        Assert.True(status == 0, $"{program} ended with {status}:\n{output}");
        return output;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
