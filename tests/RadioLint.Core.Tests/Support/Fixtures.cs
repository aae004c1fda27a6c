using System.Runtime.CompilerServices;

namespace RadioLint.Tests.Support;

/// <summary>Where the tests' own files lie.</summary>
public static class Fixtures
{
    private const string RecordEnding = ".radio.issued.json";

    /// <summary>The repository's root, found from this file's own path at build time.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>The folder with one folder a rule.</summary>
    public static string Rules => Path.Combine(Root, "tests", "RadioLint.Core.Tests", "Rules");

    /// <summary>The folder with one page a rule.</summary>
    public static string Pages => Path.Combine(Root, "docs", "rules");

    /// <summary>Every fixture, as `RL3002/fails.radio.yaml`, in ordinal order.</summary>
    public static IEnumerable<string> All() => Directory
        .EnumerateFiles(Rules, "*.radio.*", SearchOption.AllDirectories)
        .Select(file => Path.GetRelativePath(Rules, file).Replace('\\', '/'))
        .Where(file => !file.EndsWith(RecordEnding, StringComparison.Ordinal))
        .Order(StringComparer.Ordinal);

    /// <summary>The shipped examples below the repository's root, those that are wrong on purpose too, in ordinal order.</summary>
    public static IEnumerable<string> Examples() => Directory
        .EnumerateFiles(Path.Combine(Root, "docs", "examples"), "*.radio.yaml", SearchOption.AllDirectories)
        .Select(file => Path.GetRelativePath(Root, file).Replace('\\', '/'))
        .Order(StringComparer.Ordinal);

    /// <summary>What a fixture says about itself: in its comments, or for JSON in the file beside it.</summary>
    public static IReadOnlyList<Mark> MarksOf(string file)
    {
        var path = Path.Combine(Rules, file);
        if (!file.EndsWith(".json", StringComparison.Ordinal))
            return Mark.ReadAll(File.ReadAllText(path));
        var beside = path[..^".radio.json".Length] + ".marks";
        return File.Exists(beside) ? Mark.ReadBeside(File.ReadAllText(beside)) : [];
    }

    /// <summary>How a rule's fixtures find the files that they include, and the record of what was emitted from them: in their own folder.</summary>
    /// <param name="id">The rule; examples of its page lie in its folder too, as `page.radio.yaml`.</param>
    /// <param name="file">The fixture, with or without its folder.</param>
    public static CheckOptions Options(string id, string file) => new()
    {
        Today = new(2026, 6, 1),
        Include = below => Read(Path.Combine(Rules, id, below)),
        Record = RecordOf(id, Path.GetFileName(file)),
    };

    private static RecordFile RecordOf(string id, string file)
    {
        var name = file[..file.IndexOf(".radio.", StringComparison.Ordinal)] + RecordEnding;
        return new(name, Read(Path.Combine(Rules, id, name)));
    }

    private static byte[]? Read(string path) => File.Exists(path) ? File.ReadAllBytes(path) : null;

    /// <summary>The YAML blocks of every rule's page, as `RL3002 1`.</summary>
    public static IEnumerable<(string Name, string Text)> OfPages()
    {
        foreach (var file in Directory.EnumerateFiles(Pages, "RL*.md").Order(StringComparer.Ordinal))
        {
            var number = 0;
            foreach (var block in Blocks(File.ReadAllText(file), "yaml"))
                yield return ($"{Path.GetFileNameWithoutExtension(file)} block {++number}", block);
        }
    }

    /// <summary>The fenced blocks of a language in a Markdown text.</summary>
    public static IEnumerable<string> Blocks(string markdown, string language)
    {
        List<string>? block = null;
        foreach (var line in markdown.Replace("\r\n", "\n", StringComparison.Ordinal).Split('\n'))
        {
            if (block is null && line == "```" + language)
            {
                block = [];
            }
            else if (block is not null && line.StartsWith("```", StringComparison.Ordinal))
            {
                yield return string.Join('\n', block) + "\n";
                block = null;
            }
            else
            {
                block?.Add(line);
            }
        }
    }

    private static string FindRoot([CallerFilePath] string here = "")
    {
        // A deterministic build maps source paths away: then walk up from the test's own folder.
        foreach (var start in new[] { Path.GetDirectoryName(here)!, AppContext.BaseDirectory })
        {
            for (var folder = start; folder is not null; folder = Path.GetDirectoryName(folder))
            {
                if (File.Exists(Path.Combine(folder, "RadioLint.sln")))
                    return folder;
            }
        }
        throw new InvalidOperationException("RadioLint.sln was not found above the tests");
    }
}
