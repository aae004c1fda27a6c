using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Files;

public sealed class FinderTests
{
    [Fact]
    public void A_folder_is_walked_in_ordinal_order_and_passes_over_what_is_not_the_users()
    {
        using var folder = new TemporaryFolder();
        foreach (var file in new[] { "b.radio.yaml", "a.radio.json", "B.radio.yaml", "b/c.radio.yaml", "ä.radio.yaml", ".hidden/x.radio.yaml", "bin/x.radio.yaml", "deep/obj/x.radio.yaml", "node_modules/x.radio.yaml", "x.yaml", "radio.yaml", "binary/x.radio.yaml" })
            folder.Write(file, "");
        Assert.Equal(["B.radio.yaml", "a.radio.json", "b.radio.yaml", "b/c.radio.yaml", "binary/x.radio.yaml", "ä.radio.yaml"], Names(folder, "."));
        Assert.Equal(["b/c.radio.yaml"], Names(folder, "b/"));
        Assert.Equal(["bin/x.radio.yaml"], Names(folder, "bin"));
        Assert.Equal(["./b/c.radio.yaml"], Names(folder, "./b"));
        Assert.Equal([folder.At("b/c.radio.yaml")], Names(folder, folder.At("b")));
    }

    [Fact]
    public void Each_manifest_once_as_first_named()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", "");
        folder.Write("b.radio.yaml", "");
        folder.Link("c.radio.yaml", "b.radio.yaml");
        Assert.Equal(["./b.radio.yaml", "a.radio.yaml"], Names(folder, "./b.radio.yaml", ".", folder.At("a.radio.yaml"), "c.radio.yaml"));
        Assert.Equal(["<stdin>"], Names(folder, "-", "-"));
    }

    [Fact]
    public void Links_are_followed_inside_the_folder_only_and_no_circle_is_walked()
    {
        using var folder = new TemporaryFolder();
        folder.Write("site/real/a.radio.yaml", "");
        folder.Write("site/.versions/3/b.radio.yaml", "");
        folder.Write("outside/x.radio.yaml", "");
        folder.Link("site/again", "real");
        folder.Link("site/current", ".versions/3");
        folder.Link("site/real/up", "..");
        folder.Link("site/out", "../outside");
        folder.Link("site/out.radio.yaml", "../outside/x.radio.yaml");
        folder.Link("site/round", "round");
        folder.Link("site/sideways.radio.yaml", "real/../../outside/x.radio.yaml");
        Assert.Equal(["site/current/b.radio.yaml", "site/real/a.radio.yaml"], Names(folder, "site"));
        Assert.Equal(["site/out.radio.yaml"], Names(folder, "site/out.radio.yaml"));
    }

    [Fact]
    public void What_is_not_there_is_said()
    {
        using var folder = new TemporaryFolder();
        folder.Write("empty/notes.txt", "");
        var unread = new List<Unread>();
        Assert.Empty(ManifestFinder.Find(["gone", "empty", "", "a\0b"], null, Around(folder), unread));
        Assert.Equal(["gone", "empty", "", "a\0b"], unread.Select(each => each.File));
        Assert.Equal("no *.radio.yaml or *.radio.json lies below this folder", unread[1].Reason);
    }

    [Theory]
    [InlineData(null, "<stdin>", "")]
    [InlineData("site/a.radio.yaml", "site/a.radio.yaml", "site")]
    public void Standard_input_stands_for_a_file(string? name, string shown, string below)
    {
        using var folder = new TemporaryFolder();
        var file = Assert.Single(ManifestFinder.Find(["-"], name, Around(folder), []));
        Assert.Equal((shown, null, folder.At(below).TrimEnd('/')), (file.Name, file.Path, file.Folder));
    }

    [Theory]
    [InlineData("/a/b", "/a", true)]
    [InlineData("/a", "/a", true)]
    [InlineData("/ab", "/a", false)]
    [InlineData("/a", "/", true)]
    [InlineData("/", "/a", false)]
    public void Within_means_at_or_below(string path, string folder, bool isWithin) => Assert.Equal(isWithin, RealPath.IsWithin(path, folder));

    [Fact]
    public void A_stream_is_read_to_one_byte_past_the_bound()
    {
        using var endless = new Endless();
        Assert.Equal((16 * 1024 * 1024) + 1, BoundedReader.Read(endless).Length);
        Assert.Equal((16 * 1024 * 1024) + 1, endless.Given);
    }

    private static IEnumerable<string> Names(TemporaryFolder folder, params string[] places)
    {
        var unread = new List<Unread>();
        var found = ManifestFinder.Find(places, null, Around(folder), unread);
        Assert.Empty(unread);
        return found.Select(file => file.Name);
    }

    private static Surroundings Around(TemporaryFolder folder) => new()
    {
        Input = Stream.Null,
        Results = Surroundings.Writer(Stream.Null),
        Notes = TextWriter.Null,
        Folder = folder.Path,
        Today = () => CommandRun.Day,
    };

    private sealed class Endless : MemoryStream
    {
        public long Given { get; private set; }

        public override int Read(byte[] buffer, int offset, int count)
        {
            Given += count;
            return count;
        }
    }
}
