using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8201: a generated file is missing or comes from an earlier manifest.</summary>
public static class StaleFile
{
    public static readonly Descriptor Rule = new("RL8201", Severity.Error, "Generated file older than the manifest", "own rule: what lies in the folder is what `emit` would write", "0.1");

    /// <param name="node">Whose file it is; null for one that all share.</param>
    public static Finding Missing(Place node, string file) => new(Rule, node, $"`{file}` is not there", "emit again");

    /// <param name="digests">What it was made from and what it would be made from; null where it states none.</param>
    public static Finding Older(Place file, (string Written, string Now)? digests, RelatedPlace? node) =>
        new(Rule, file, digests is var (written, now) && written != now ? $"this file was made from digest {written}, and the manifest now gives {now}" : "this file is not what the manifest gives now", "emit again")
        {
            Related = node is { } related ? ImmutableArray.Create(related) : ImmutableArray<RelatedPlace>.Empty,
        };
}
