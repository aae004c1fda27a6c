using System.Diagnostics;
using System.Globalization;
using System.Reflection;

namespace RadioLint.Mutation;

/// <summary>The process that the mutants run in, so that one that loops or exhausts the stack can be ended. Answers one line to each line.</summary>
internal static class Worker
{
    /// <param name="args">Path of the mutated Core, folder of the tests, and a mutant that is at work from the very start, or 0.</param>
    public static void Serve(string[] args)
    {
        var first = int.Parse(args[2], CultureInfo.InvariantCulture);
        var replies = Console.Out;
        Console.SetOut(TextWriter.Null);
        var tests = new TestCases(args[0], args[1]) { Active = first };
        List<TestCase> cases;
        try
        {
            cases = tests.All();
        }
        catch (TargetInvocationException failed) when (first != 0)
        {
            // Rows that cannot be listed are a failed test.
            replies.WriteLine($"killed listing: {failed.InnerException?.GetType().Name}");
            return;
        }
        // All that is made once is made now, by no mutant.
        if (first == 0 && Check(tests, cases) is { } broken)
            throw new InvalidOperationException($"fails without a mutant: {broken}");
        replies.WriteLine($"{cases.Count} {Probes(tests.Passed)}");
        while (Console.In.ReadLine() is { } line)
        {
            var words = line.Split(' ');
            switch (words[0])
            {
                case "cover":
                    Cover(tests, cases, replies);
                    break;
                case "check":
                    replies.WriteLine(Check(tests, cases) is { } fault ? $"broken {fault}" : "sound");
                    break;
                default:
                    var mutant = int.Parse(words[1], CultureInfo.InvariantCulture);
                    tests.Active = mutant;
                    var failed = words.Skip(2).Select(word => cases.ElementAtOrDefault(int.Parse(word, CultureInfo.InvariantCulture))).FirstOrDefault(test => test?.Run() is not null);
                    tests.Active = 0;
                    replies.WriteLine(failed is null ? "survived" : $"killed {cases.IndexOf(failed)} {failed.Name}");
                    break;
            }
        }
    }

    private static string? Check(TestCases tests, List<TestCase> cases)
    {
        tests.Active = 0;
        foreach (var test in cases)
        {
            if (test.Run() is { } failure)
                return $"{test.Name}: {failure.Message.ReplaceLineEndings(" ")}";
        }
        return null;
    }

    // A line a test: its time in microseconds and the probes that it passed.
    private static void Cover(TestCases tests, List<TestCase> cases, TextWriter replies)
    {
        foreach (var test in cases)
        {
            Array.Clear(tests.Passed);
            var clock = Stopwatch.StartNew();
            var failure = test.Run();
            if (failure is not null)
                throw new InvalidOperationException($"{test.Name} fails without a mutant: {failure}");
            replies.WriteLine(FormattableString.Invariant($"{clock.ElapsedTicks * 1_000_000 / Stopwatch.Frequency} {Probes(tests.Passed)}"));
        }
    }

    private static string Probes(bool[] passed) => string.Join(' ', Enumerable.Range(0, passed.Length).Where(probe => passed[probe]));
}
