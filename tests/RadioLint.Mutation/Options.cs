using System.Globalization;

namespace RadioLint.Mutation;

/// <summary>What the command line asks for.</summary>
internal sealed record Options
{
    private const string Usage = "Known are: [--sample N] [--seed S] [--folder Rules/Supply] [--only 12,40] [--workers 1 or 2] [--out survivors.txt]";

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

    /// <summary>The same numbers give the same sample, as long as the sources are the same.</summary>
    public List<Mutant> Choose(IEnumerable<Mutant> compiled)
    {
        var wanted = compiled.Where(mutant => mutant.Folder.StartsWith(Folder, StringComparison.Ordinal) && (Only.Count == 0 || Only.Contains(mutant.Id))).ToArray();
        if (Sample is not { } size || size >= wanted.Length)
            return [.. wanted];
        new Random(Seed).Shuffle(wanted);
        return [.. wanted.Take(size).OrderBy(mutant => mutant.Id)];
    }
}
