using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using RadioLint.Mutation;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["--worker", ..])
{
    Worker.Serve(args[1..]);
    return 0;
}
if (!Options.TryRead(args, out var options))
    return 2;

var configuration = AppContext.BaseDirectory.Contains($"{Path.DirectorySeparatorChar}Debug{Path.DirectorySeparatorChar}", StringComparison.Ordinal) ? "Debug" : "Release";
var core = new CoreSources(Root(), configuration);
var all = MutantFinder.Find(core);
var drawn = options.Draw(all);
var folder = Directory.CreateTempSubdirectory("radiolint-mutation");
try
{
    var path = Path.Combine(folder.FullName, "RadioLint.Core.dll");
    var compiled = Compile(path);
    Console.Error.WriteLine($"{all.Count} mutants, {drawn.Count} drawn, {drawn.Count - compiled.Count} of them do not compile");

    Coverage coverage;
    using (var worker = new WorkerProcess(path, core.Tests, 0))
        coverage = new(worker, compiled);
    var counted = CasesOfTheRunner();
    if (counted != coverage.Count)
        throw new InvalidOperationException($"{coverage.Count} cases are called here, {counted} by the tests' own runner");
    Console.Error.WriteLine($"{counted} test cases, as the tests' own runner counts them");

    var chosen = options.Choose(drawn, [.. compiled]);
    var outcomes = new Session(path, core.Tests, coverage).Run(chosen, options.Workers);
    Report.Print(all, outcomes, coverage);
    if (options.Out is { } file)
        File.WriteAllLines(file, chosen.Where(mutant => outcomes[mutant.Id] == Outcome.Survived).Select(mutant => coverage.TestsOf(mutant).Count == 0 ? $"{mutant} (no test reaches it)" : $"{mutant}"));
}
finally
{
    folder.Delete(recursive: true);
}
return 0;

// Leaves out what does not compile until the rest does; an error lies in the copy of the mutant that caused it.
List<Mutant> Compile(string path)
{
    var left = drawn.OrderBy(mutant => mutant.Id).ToList();
    while (true)
    {
        var schemata = new Schemata(core);
        var files = left.GroupBy(mutant => mutant.File).ToDictionary(group => group.Key, group => schemata.Write(group.Key, [.. group]));
        var mutated = core.With(files.Select(each => KeyValuePair.Create(each.Key, each.Value.Text)), MutantSwitch.Source(schemata.Probes));
        var errors = mutated.GetDiagnostics().Where(each => each.Severity is DiagnosticSeverity.Error).ToList();
        if (errors.Count == 0)
        {
            core.Emit(mutated, path);
            return left;
        }
        var broken = errors.Select(error => MutantAt(files, error)).ToHashSet();
        left = [.. left.Where(mutant => !broken.Contains(mutant.Id))];
    }
}

static int MutantAt(Dictionary<string, (string Text, List<(Microsoft.CodeAnalysis.Text.TextSpan Span, int Mutant)> Copies)> files, Diagnostic error)
{
    var copies = files.TryGetValue(error.Location.SourceTree?.FilePath ?? "", out var file) ? file.Copies : [];
    var at = error.Location.SourceSpan;
    var copy = copies.Find(copy => copy.Span.IntersectsWith(at));
    // A method without a return in reach is complained about at its name, just before its copy.
    return copy.Mutant != 0 ? copy.Mutant
        : copies.Find(copy => copy.Span.Start > at.Start) is { Mutant: not 0 } next && file.Text[at.Start..next.Span.Start].IndexOf('\n') < 0 ? next.Mutant
        : throw new InvalidOperationException($"No mutant is the cause: {error}\n{file.Text?[Math.Max(0, at.Start - 200)..Math.Min(file.Text.Length, at.End + 200)]}");
}

int CasesOfTheRunner()
{
    var start = new ProcessStartInfo("dotnet", [Path.Combine(core.Tests, "RadioLint.Core.Tests.dll"), "-noColor", "-noLogo", .. TestCases.LeftOut.SelectMany(name => new[] { "-class-", name })])
    {
        RedirectStandardOutput = true,
    };
    using var process = Process.Start(start)!;
    var output = process.StandardOutput.ReadToEnd();
    process.WaitForExit();
    var total = Regex.Match(output, @"Total: (\d+), Errors: 0, Failed: 0, Skipped: 0");
    return total.Success ? int.Parse(total.Groups[1].Value, CultureInfo.InvariantCulture) : throw new InvalidOperationException($"The tests do not pass as they are:\n{output}");
}

static string Root([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
