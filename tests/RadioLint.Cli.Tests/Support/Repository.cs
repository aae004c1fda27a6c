namespace RadioLint.Cli.Tests.Support;

/// <summary>Places in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = Upwards(AppContext.BaseDirectory);

    public static string Snapshots => Path.Combine(Root, "tests", "RadioLint.Cli.Tests", "Snapshots");

    public static string Apiary => Path.Combine(Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml");

    private static string Upwards(string from)
    {
        for (var at = from; at is not null; at = Path.GetDirectoryName(at))
        {
            if (File.Exists(Path.Combine(at, "RadioLint.sln")))
                return at;
        }
        throw new DirectoryNotFoundException($"RadioLint.sln lies nowhere above {from}");
    }
}
