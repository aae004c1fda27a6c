using System.Globalization;

namespace RadioLint.Mutation;

internal enum Outcome
{
    Survived,
    Killed,
    Timeout,
}

/// <summary>Runs mutants in worker processes.</summary>
internal sealed class Session(string core, string tests, Coverage coverage)
{
    private static readonly TimeSpan Start = TimeSpan.FromMinutes(5);
    private readonly Lock gate = new();
    private readonly Dictionary<int, int> killers = [];

    public SortedDictionary<int, Outcome> Run(IReadOnlyList<Mutant> mutants, int workers)
    {
        var outcomes = new SortedDictionary<int, Outcome>();
        // Those that need a process of their own come last.
        var queue = new Queue<Mutant>(mutants.OrderBy(coverage.IsOnce));
        var threads = Enumerable.Range(0, workers).Select(_ => Task.Factory.StartNew(() => Work(queue, outcomes, mutants.Count), TaskCreationOptions.LongRunning)).ToArray();
        Task.WaitAll(threads);
        return outcomes;
    }

    private void Work(Queue<Mutant> queue, SortedDictionary<int, Outcome> outcomes, int all)
    {
        WorkerProcess? worker = null;
        while (true)
        {
            Mutant? mutant;
            lock (gate)
            {
                if (!queue.TryDequeue(out mutant))
                    break;
            }
            var outcome = coverage.IsOnce(mutant) ? RunFresh(mutant) : Run(mutant, ref worker);
            lock (gate)
            {
                outcomes[mutant.Id] = outcome;
                if (outcome == Outcome.Survived)
                    Console.Error.WriteLine($"{outcomes.Count}/{all} survived {mutant}");
            }
        }
        // What one mutant leaves behind must not kill the next.
        if (worker?.Ask("check", Start) is { } state && state != "sound")
            throw new InvalidOperationException($"A mutant left something behind: {state}");
        worker?.Dispose();
    }

    private Outcome Run(Mutant mutant, ref WorkerProcess? worker)
    {
        var reaching = coverage.TestsOf(mutant);
        if (reaching.Count == 0)
            return Outcome.Survived;
        var isNew = worker is null;
        worker ??= Started();
        var outcome = Ask(worker, mutant, reaching, out var isAlive);
        if (isAlive)
            return outcome;
        worker.Dispose();
        worker = null;
        // What earlier mutants left in the process may have ended it: only a new one tells.
        return isNew || outcome == Outcome.Timeout ? outcome : Run(mutant, ref worker);
    }

    private WorkerProcess Started()
    {
        var worker = new WorkerProcess(core, tests, 0);
        _ = worker.Read(Start) ?? throw new InvalidOperationException(worker.Fault);
        return worker;
    }

    private Outcome RunFresh(Mutant mutant)
    {
        using var worker = new WorkerProcess(core, tests, mutant.Id);
        List<int> order;
        lock (gate)
            order = [.. coverage.TestsOf(mutant).OrderByDescending(test => killers.GetValueOrDefault(test))];
        return worker.Read(Start) is { } line && !line.StartsWith("killed", StringComparison.Ordinal) ? Ask(worker, mutant, order, out _) : Outcome.Killed;
    }

    private Outcome Ask(WorkerProcess worker, Mutant mutant, List<int> order, out bool isAlive)
    {
        try
        {
            var reply = worker.Ask($"run {mutant.Id} {string.Join(' ', order)}", coverage.LimitOf(order));
            isAlive = reply is not null;
            if (reply == "survived")
                return Outcome.Survived;
            // A test that noticed one change of what is made once is tried first on the next.
            if (reply?.Split(' ') is [_, var at, ..] && coverage.IsOnce(mutant))
            {
                var test = int.Parse(at, CultureInfo.InvariantCulture);
                lock (gate)
                    killers[test] = killers.GetValueOrDefault(test) + 1;
            }
            return Outcome.Killed;
        }
        catch (TimeoutException)
        {
            isAlive = false;
            return Outcome.Timeout;
        }
    }
}
