namespace RadioLint.Tests.Support;

/// <summary>docs/manifest.md and its examples.</summary>
public static class Reference
{
    public static string Text { get; } = File.ReadAllText(Path.Combine(Fixtures.Root, "docs", "manifest.md"));

    /// <summary>Its examples as whole manifests: a piece gets what every manifest must have.</summary>
    public static IReadOnlyList<string> Blocks { get; } = [.. Fixtures.Blocks(Text, "yaml").Select(Completed)];

    private static string Completed(string block)
    {
        if (block.StartsWith("radiolint:", StringComparison.Ordinal))
            return block;
        var nodes = ("\n" + block).Contains("\nnodes:", StringComparison.Ordinal) ? "" : "nodes: { hall: { board: esp32 } }\n";
        return $"radiolint: 1\nnetwork: example\nregion: GB\n{nodes}{block}";
    }
}
