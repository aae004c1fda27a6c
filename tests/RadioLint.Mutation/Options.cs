using System.Globalization;

namespace RadioLint.Mutation;

/// <summary>What the command line asks for.</summary>
internal sealed record Options
{
    private const string Usage = """
        RadioLint.Mutation [--sample N] [--seed S] [--folder Rules/Supply] [--only 12,40] [--workers 1] [--out survivors.txt]
        """;

    public int? Sample { get; private init; }

    public int Seed { get; private init; } = 1;

    public string Folder { get; private init; } = "";

    public IReadOnlyList<int> Only { get; private init; } = [];

    public int Workers { get; private init; } = 1;

    public string? Out { get; private init; }

    public static bool TryRead(string[] args, out Options options)
    {
        options = new();
        try
        {
            for (var at = 0; at < args.Length; at += 2)
            {
                var value = args[at + 1];
                options = args[at] switch
                {
                    "--sample" => options with { Sample = Number(value) },
                    "--seed" => options with { Seed = Number(value) },
                    "--folder" => options with { Folder = value },
                    "--only" => options with { Only = [.. value.Split(',').Select(Number)] },
                    "--workers" => options with { Workers = Number(value) },
                    "--out" => options with { Out = value },
                    _ => throw new FormatException(),
                };
            }
            return true;
        }
        catch (Exception fault) when (fault is FormatException or IndexOutOfRangeException)
        {
            Console.Error.WriteLine(Usage);
            return false;
        }
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

    private static int Number(string text) => int.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);
}
