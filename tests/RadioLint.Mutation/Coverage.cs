using System.Globalization;

namespace RadioLint.Mutation;

/// <summary>Which tests reach which mutant, and how long they take.</summary>
internal sealed class Coverage
{
    private static readonly TimeSpan Whole = TimeSpan.FromMinutes(5);
    private readonly List<(int At, long Microseconds, HashSet<int> Probes)> tests = [];
    private readonly HashSet<int> ever;

    private readonly ILookup<string, int> probesOf;

    public Coverage(WorkerProcess worker, IEnumerable<Mutant> mutants)
    {
        probesOf = mutants.Select(mutant => (mutant.File, mutant.Probe)).Distinct().ToLookup(each => each.File, each => each.Probe);
        var ready = Numbers(worker, Whole);
        ever = [.. ready.Skip(1).Select(probe => (int)probe)];
        for (var line = worker.Ask("cover", Whole); tests.Count < ready[0]; line = tests.Count < ready[0] ? worker.Read(Whole) : "")
        {
            long[] numbers = [.. line!.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => long.Parse(word, CultureInfo.InvariantCulture))];
            tests.Add((tests.Count, numbers[0], [.. numbers.Skip(1).Select(probe => (int)probe)]));
        }
    }

    public int Count => tests.Count;

    /// <summary>Reached while something is made once and by no test after that.</summary>
    public bool IsOnce(Mutant mutant) => ever.Contains(mutant.Probe) && !tests.Exists(test => test.Probes.Contains(mutant.Probe));

    /// <summary>
    /// The tests that reach a mutant, first those that get about most in its file, as they are the likeliest to notice; all of them for a
    /// mutant that is reached while something is made.
    /// </summary>
    public List<int> TestsOf(Mutant mutant)
    {
        var isOnce = IsOnce(mutant);
        var near = probesOf[mutant.File].ToList();
        return
        [
            .. tests.Where(test => isOnce || test.Probes.Contains(mutant.Probe))
                .OrderByDescending(test => near.Count(test.Probes.Contains)).ThenBy(test => test.Microseconds).Select(test => test.At),
        ];
    }

    /// <summary>Ten times what the tests take, and ten seconds more.</summary>
    public TimeSpan LimitOf(List<int> of) => TimeSpan.FromMilliseconds(10_000 + of.Sum(test => tests[test].Microseconds / 100));

    private static long[] Numbers(WorkerProcess worker, TimeSpan limit) =>
        [.. (worker.Read(limit) ?? throw new InvalidOperationException(worker.Fault)).Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => long.Parse(word, CultureInfo.InvariantCulture))];
}
