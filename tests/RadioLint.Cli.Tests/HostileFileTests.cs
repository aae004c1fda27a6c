using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Xunit;

namespace RadioLint.Cli.Tests;

/// <summary>
/// Files that are made, or broken, to hurt: each is read by a process that may use 200 MB of managed memory and 60 s, and answers with a finding
/// at a place, never with a crash.
/// </summary>
public sealed partial class HostileFileTests
{
    private const int MiB = 1024 * 1024;
    private const string Head = "radiolint: 1\nnetwork: a\nregion: GB\nair: { channel: 74 }\n";
    private const string Whole = Head + "nodes: { hall: { board: esp32 } }\n";

    private static readonly (string Name, Func<byte[]> Bytes, string First)[] Files =
    [
        ("square.radio.yaml", () => Utf8(Repeat("[", 100_000)), "1:65: error RL8001: nesting is more than 64 levels deep here"),
        ("curly.radio.yaml", () => Utf8(Repeat("{a: ", 100_000)), "1:257: error RL8001: nesting is more than 64 levels deep here"),
        ("dashes.radio.yaml", () => Utf8(Repeat("- ", 100_000)), "1:129: error RL8001: nesting is more than 64 levels deep here"),
        ("square.radio.json", () => Utf8(Repeat("[", 100_000) + Repeat("]", 100_000)), "1:65: error RL8001: nesting is more than 64 levels deep here"),
        ("bomb.radio.yaml", () => Utf8(Bomb()), "5:31: error RL8001: aliases stand for more than 100000 values"),
        ("not-utf8.radio.yaml", () => [.. Utf8(Whole + "# "), 0xFF, .. Utf8("\n")], "6:3: error RL8012: the byte 0xFF here is not UTF-8"),
        ("overlong.radio.yaml", () => [.. Utf8(Whole + "# é"), 0xC0, 0x80], "6:4: error RL8012: the byte 0xC0 here is not UTF-8"),
        ("cut-in-a-character.radio.yaml", () => [.. Utf8(Whole + "x-a: "), 0xE2, 0x82], "6:6: error RL8012: the byte 0xE2 here is not UTF-8"),
        ("nul.radio.yaml", () => Utf8(Whole.Replace("esp32", "esp\0", StringComparison.Ordinal)), "5:28: error RL8001: the control character U+0000 stands here"),
        ("empty.radio.yaml", () => [], "1:1: error RL8014: the file is empty"),
        ("empty.radio.json", () => [], "1:1: error RL8014: the file is empty"),
        ("one-word.radio.yaml", () => Utf8(Repeat("a", 10 * MiB)), "1:1: error RL8004: `aaaa"),
        ("one-value.radio.yaml", () => Utf8(Whole.Replace("GB", Repeat("G", 10 * MiB), StringComparison.Ordinal)), "3:9: error RL8005: `GGGG"),
        ("one-quote.radio.yaml", () => Utf8("\"" + Repeat("a b ", 5 * MiB / 2)), "1:1: error RL8001: the quote that opens here is not closed"),
        ("one-list.radio.yaml", () => Utf8(Whole + "x-a: [" + Repeat("1,", 5 * MiB) + "1]\n"), "6:1999987: error RL8001: the file holds more than 1000000 values"),
        ("one-list.radio.json", () => Utf8("[" + Repeat("1,", 5 * MiB)), "1:2000000: error RL8001: the file holds more than 1000000 values"),
        ("one-comment.radio.yaml", () => Utf8("#" + Repeat("x", 10 * MiB)), "1:1: error RL8014: the file is empty"),
        ("line-ends.radio.yaml", () => Utf8(Repeat("\n", 16 * MiB)), "1:1: error RL8014: the file is empty"),
        ("too-large.radio.yaml", () => Utf8(Repeat("#", (16 * MiB) + 1)), "1:1: error RL8001: the file has more than 16 MiB, the most that is read"),
        ("same-key.radio.yaml", () => Utf8(Whole + Repeat("x-a: 1\n", 1_000_000)), "7:1: error RL8002: the key `x-a` already stands in line 6"),
        ("many-nodes.radio.yaml", () => Utf8(Head + "nodes: { a: { each: 1..100000, board: esp23 }, b: { each: 1..100000, board: esp23 } }\n"), "5:39: error RL8011: no board is called `esp23`"),
    ];

    private static string Example { get; } = Path.Combine(FindRoot(), "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml");

    public static TheoryData<string> Names() => [.. Files.Select(file => file.Name)];

    [Theory, MemberData(nameof(Names))]
    public void A_hostile_file_gets_a_finding_at_its_place(string name)
    {
        var (_, bytes, first) = Files.Single(file => file.Name == name);
        var (status, results, notes) = Check(name, bytes());
        Assert.Equal((1, ""), (status, CrashIn(notes)));
        Assert.Contains($"{name}:{first}", results.Split('\n').First(line => line.Contains(": error ", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    // The first bytes, the last ones, and a sample between them.
    public static TheoryData<int> Cuts()
    {
        var length = (int)new FileInfo(Example).Length;
        return [1, 2, length / 97, .. Enumerable.Range(1, 20).Select(n => (int)((long)length * n * 7919 % length)), length - 2, length - 1];
    }

    [Theory, MemberData(nameof(Cuts))]
    public void A_file_cut_off_anywhere_is_answered(int at)
    {
        var (status, results, notes) = Check("cut.radio.yaml", File.ReadAllBytes(Example)[..at]);
        Assert.InRange(status, 0, 1);
        Assert.Equal("", CrashIn(notes));
        var lines = File.ReadAllText(Example)[..at].Count(c => c == '\n') + 1;
        var places = Place().Matches(results).Select(match => int.Parse(match.Groups["line"].Value, CultureInfo.InvariantCulture)).ToList();
        Assert.True(status == 0 || places.Count > 0, results);
        Assert.All(places, line => Assert.InRange(line, 1, lines));
    }

    private static (int Status, string Results, string Notes) Check(string name, byte[] bytes)
    {
        var folder = Directory.CreateTempSubdirectory("radiolint-");
        try
        {
            File.WriteAllBytes(Path.Combine(folder.FullName, name), bytes);
            return Run(folder.FullName, name);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static (int Status, string Results, string Notes) Run(string folder, string name)
    {
        var start = new ProcessStartInfo("dotnet", ["exec", Path.Combine(AppContext.BaseDirectory, "radiolint.dll"), "check", name, "--format", "text"])
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["DOTNET_GCHeapHardLimit"] = "0xC800000"; // 200 MiB, in hexadecimal as the runtime wants it
        using var process = Process.Start(start)!;
        var results = process.StandardOutput.ReadToEndAsync();
        var notes = process.StandardError.ReadToEndAsync();
        // Ten times what it takes on a machine that does nothing else; a reader that is not linear needs far longer.
        if (!process.WaitForExit(TimeSpan.FromSeconds(60)))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail($"{name} took more than 60 s");
        }
        process.WaitForExit();
        return (process.ExitCode, results.GetAwaiter().GetResult(), notes.GetAwaiter().GetResult());
    }

    private static string CrashIn(string notes) =>
        notes.Contains("Out of memory", StringComparison.Ordinal) || notes.Contains("nhandled exception", StringComparison.Ordinal) || notes.Contains("Stack overflow", StringComparison.Ordinal) ? notes : "";

    private static string Bomb()
    {
        var text = new StringBuilder("x-a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n");
        for (var c = 'b'; c <= 'j'; c++)
            text.Append(CultureInfo.InvariantCulture, $"x-{c}: &{c} [{string.Join(',', Enumerable.Repeat($"*{(char)(c - 1)}", 10))}]\n");
        return text.ToString();
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    private static string Repeat(string text, int count) => new StringBuilder(text.Length * count).Insert(0, text, count).ToString();

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "RadioLint.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("RadioLint.sln was not found above the tests");
        return folder;
    }

    [GeneratedRegex("^cut[.]radio[.]yaml:(?<line>[0-9]+):[0-9]+: (error|warning|info) RL[0-9]{4}: ", RegexOptions.Multiline)]
    private static partial Regex Place();
}
