using System.Collections.Immutable;
using RadioLint.Rules.HostCode;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>A fenced block of a rule's page.</summary>
/// <param name="Id">The rule.</param>
/// <param name="Number">From 1, over all blocks of the page.</param>
/// <param name="Heading">The section that it stands in.</param>
/// <param name="Language">What the fence says; empty when it says nothing.</param>
public sealed record PageBlock(string Id, int Number, string Heading, string Language, string Text)
{
    public const string Fails = "Example that fails";
    public const string Passes = "Example that passes";

    public string Name => $"{Id} block {Number}, {Heading}";

    public override string ToString() => Name;
}

/// <summary>The pages of the rules on C# code.</summary>
public static class RulePages
{
    private const string Fence = "```";

    public static string Read(string id) => File.ReadAllText(Path.Combine(Repository.Root, "docs", "rules", id + ".md")).Replace("\r\n", "\n", StringComparison.Ordinal);

    public static ImmutableArray<PageBlock> Blocks { get; } = [.. HostRules.All.SelectMany(rule => BlocksOf(rule.Id))];

    private static IEnumerable<PageBlock> BlocksOf(string id)
    {
        var (number, heading) = (0, "");
        (string Language, List<string> Lines)? open = null;
        foreach (var line in Read(id).Split('\n'))
        {
            if (open is null && line.StartsWith(Fence, StringComparison.Ordinal))
            {
                open = (line[Fence.Length..], []);
            }
            else if (open is var (language, lines))
            {
                if (line != Fence)
                {
                    lines.Add(line);
                    continue;
                }
                yield return new(id, ++number, heading, language, string.Join('\n', lines) + "\n");
                open = null;
            }
            else if (line.StartsWith("## ", StringComparison.Ordinal))
            {
                heading = line[3..];
            }
        }
    }
}
