using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>What the reading and emitting rules say that no manifest alone brings about, word by word, and where they point.</summary>
public sealed class HygieneTextTests
{
    private static readonly SourceText Source = new("here.yaml", "first: 1\nsecond: 2\n");
    private static readonly Place Place = new(Source, 0, 18);

    public static TheoryData<string, string, string> Texts()
    {
        var said = new TheoryData<string, string, string>();
        Add(IncludeFault.Missing(Place, "a.yaml"), "there is no file `a.yaml` below the manifest's folder", "mend the name, or add the file");
        Add(IncludeFault.Outside(Place, "/a.yaml"), "`/a.yaml` is not a plain path below the manifest's folder", "move the file below the manifest's folder and write its path with `/`");
        Add(IncludeFault.Circle(Place, "a.yaml"), "`a.yaml` includes itself, directly or through others", "remove one of the `include` lines");
        Add(IncludeFault.TooMany(Place, 64), "more than 64 files are included", "join some of them");
        Add(TemplateFault.UnknownName(Place, "nod", "node"), "the template uses `nod`, which does not exist here", "write `node`");
        Add(TemplateFault.UnknownName(Place, "xyz", null), "the template uses `xyz`, which does not exist here", "use a name of docs/templates.md");
        Add(TemplateFault.At(Place, "an end is missing"), "an end is missing", "mend the template at this place");
        Add(TemplateFault.TooLong(Place, 1_048_576), "the file grows beyond 1048576 bytes here", "look for a loop that repeats too much");
        Add(SameOutputFile.InNetwork(Place, "b", Place, "a", "a.h"), "nodes `a` and `b` both write `a.h`", "rename one of the two");
        Add(
            SameOutputFile.BetweenNetworks(Place, "b", "a.h", "cellar"), "node `b` writes `a.h`, which was written for network `cellar`",
            "give each network a folder of its own with `--out`, or rename the node");
        Add(UndefinedReference.Circle(Place, "a"), "`a` is based on itself, directly or through others", "base one of the profiles on a shipped one");
        Add(UndefinedReference.At(Place, "xyzzy", "board", ["esp32", "rp2040"]), "no board is called `xyzzy`", "define `xyzzy`, or use one of esp32, rp2040");
        Add(UndefinedReference.At(Place, "xyzzy", "board", []), "no board is called `xyzzy`", "define `xyzzy`");
        Add(UndefinedReference.At(Place, "xyzzy", "board", Names(24)), "no board is called `xyzzy`", $"define `xyzzy`, or use one of {string.Join(", ", Names(24))}");
        Add(UndefinedReference.At(Place, "xyzzy", "board", Names(25)), "no board is called `xyzzy`", "define `xyzzy`");
        Add(UndefinedReference.At(Place, "esp23", "board", ["esp32", "rp2040"]), "no board is called `esp23`", "write `esp32`, or define `esp23`");
        Add(FormatVersion.Other(Place, 2), "format 2 is not known; this program reads format 1", "use a newer RadioLint");
        Add(FormatVersion.Other(Place, 0), "format 0 is not known; this program reads format 1", "write `radiolint: 1`");
        Add(WrongType.Empty(Place, "channel", "a number"), "the key `channel` has no value", "write a number, or leave the key out");
        Add(WrongType.Lacks(Place, "a link", "to", "a node"), "a link lacks the key `to`", "add `to:` with a node");
        Add(ValueNotInList.At(Place, "redd", "a colour", ["red", "blue"]), "`redd` is not a colour", "use one of red, blue; the nearest is `red`");
        Add(ValueNotInList.At(Place, "xyzzy", "a colour", ["red", "blue"]), "`xyzzy` is not a colour", "use one of red, blue");
        Add(ValueNotInList.At(Place, "redd", "a colour", [.. Names(7), "red"]), "`redd` is not a colour", $"use one of {string.Join(", ", Names(7))}, red; the nearest is `red`");
        Add(ValueNotInList.At(Place, "redd", "a colour", [.. Names(8), "red"]), "`redd` is not a colour", "write `red`");
        return said;

        void Add(Finding finding, string message, string help) => said.Add($"{finding.Message} / {finding.Help}", message, help);
    }

    [Theory, MemberData(nameof(Texts))]
    public void They_say_what_is_wrong_and_what_to_do(string said, string message, string help) => Assert.Equal($"{message} / {help}", said);

    // The other node is named and pointed at.
    [Fact]
    public void Both_nodes_of_one_file_are_shown()
    {
        var other = new Place(Source, 9, 6);
        var related = Assert.Single(SameOutputFile.InNetwork(Place, "b", other, "a", "a.h").Related);
        Assert.Equal((other, "`a` stands here"), (related.Place, related.Message));
    }

    // A file of one node points at it, one that all share at nothing.
    [Fact]
    public void A_stale_file_shows_its_node()
    {
        var node = new RelatedPlace(new Place(Source, 9, 6), "its node is here");
        Assert.Equal([node], StaleFile.Older(Place, null, node).Related);
        Assert.Empty(StaleFile.Older(Place, null, null).Related);
        Assert.Equal("this file is not what the manifest gives now", StaleFile.Older(Place, null, node).Message);
        Assert.Equal("this file is not what the manifest gives now", StaleFile.Older(Place, ("01234567", "01234567"), node).Message);
        Assert.Equal("this file was made from digest 01234567, and the manifest now gives 89ABCDEF", StaleFile.Older(Place, ("01234567", "89ABCDEF"), node).Message);
        Assert.Equal(("`a.h` is not there", "emit again"), (StaleFile.Missing(Place, "a.h").Message, StaleFile.Missing(Place, "a.h").Help));
    }

    [Theory]
    [InlineData("first: 1\nsecond: 2\n", 0, 18, "first: 1")]
    [InlineData("first: 1\rsecond: 2\r", 0, 18, "first: 1")]
    [InlineData("first: 1\r\nsecond: 2", 0, 19, "first: 1")]
    [InlineData("first: 1\nsecond: 2\n", 9, 9, "second: 2")]
    [InlineData("\nfirst: 1", 0, 9, "")]
    public void Of_a_map_the_first_line_is_shown(string text, int start, int length, string expected)
    {
        var whole = new Place(new SourceText("here.yaml", text), start, length);
        Assert.Equal(expected, whole.FirstLine.Text);
        Assert.Equal(expected, WrongType.Lacks(whole, "a link", "to", "a node").Place.Text);
    }

    // An absolute path, a drive, a backslash, a step upwards or in place, an empty part.
    [Theory]
    [InlineData("parts/a.yaml", false)]
    [InlineData("a..b.yaml", false)]
    [InlineData("", true)]
    [InlineData("/a.yaml", true)]
    [InlineData("C:a.yaml", true)]
    [InlineData("parts\\a.yaml", true)]
    [InlineData("../a.yaml", true)]
    [InlineData("parts/../a.yaml", true)]
    [InlineData("./a.yaml", true)]
    [InlineData("parts//a.yaml", true)]
    [InlineData("\\a.yaml", true)]
    [InlineData(":a.yaml", true)]
    public void Only_plain_paths_below_the_folder_are_read(string path, bool escapes) => Assert.Equal(escapes, IncludeFault.Escapes(path));

    private static string[] Names(int count) => [.. Enumerable.Range(1, count).Select(i => $"quite-another-{i:00}")];
}
