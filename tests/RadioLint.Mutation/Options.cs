using System.Globalization;

namespace RadioLint.Mutation;

/// <summary>What the command line asks for.</summary>
internal sealed record Options
{
    private const string Usage = "Known are: [--sample N] [--seed S] [--folder Rules/Supply,Power] [--only 12,40] [--workers 1 or 2] [--out survivors.txt]";

    public int? Sample { get; private init; }

    public int Seed { get; private init; } = 1;

    public string Folder { get; private init; } = "";

    public IReadOnlyList<int> Only { get; private init; } = [];

    public int Workers { get; private init; } = 1;

    public string? Out { get; private init; }

    public static bool TryRead(string[] args, out Options options)
    {
        options = new();
        for (var at = 0; at < args.Length; at += 2)
        {
            var value = at + 1 < args.Length ? args[at + 1] : "";
            int[] numbers = [.. value.Split(',').Select(text => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : -1)];
            var read = (args[at], numbers) switch
            {
                ("--sample", [>= 0 and var count]) => options with { Sample = count },
                ("--seed", [>= 0 and var seed]) => options with { Seed = seed },
                ("--workers", [(1 or 2) and var workers]) => options with { Workers = workers },
                ("--only", _) when numbers.All(number => number > 0) => options with { Only = numbers },
                ("--folder", _) when value.Length > 0 => options with { Folder = value },
                ("--out", _) when value.Length > 0 => options with { Out = value },
                _ => null,
            };
            if (read is null)
            {
                Console.Error.WriteLine($"`{args[at]} {value}` is no option with its value. {Usage}");
                return false;
            }
            options = read;
        }
        return true;
    }

    /// <summary>
    /// What is to be compiled, each folder shuffled: half as many again as the sample, because a sixth or so do not compile; those that do are a sample all the
    /// same. The same numbers give the same sample, as long as the sources are the same.
    /// </summary>
    public List<Mutant> Draw(IReadOnlyCollection<Mutant> all)
    {
        var drawn = new List<Mutant>();
        foreach (var folder in Folder.Split(','))
        {
            var wanted = all.Where(mutant => mutant.Folder.StartsWith(folder, StringComparison.Ordinal) && (Only.Count == 0 || Only.Contains(mutant.Id))).ToArray();
            if (Sample is not null)
                new Random(Seed).Shuffle(wanted);
            drawn.AddRange(wanted.Take(Sample is { } size ? size + (size / 2) : wanted.Length));
        }
        return [.. drawn.Distinct()];
    }

    /// <summary>Of what was drawn and compiles, in the order of the draw, as many of each folder as the sample asks for.</summary>
    public List<Mutant> Choose(List<Mutant> drawn, HashSet<Mutant> compiled) => [.. Folder.Split(',')
        .SelectMany(folder => drawn.Where(mutant => compiled.Contains(mutant) && mutant.Folder.StartsWith(folder, StringComparison.Ordinal)).Take(Sample ?? int.MaxValue))
        .Distinct().OrderBy(mutant => mutant.Id)];
}
