using System.Xml;
using System.Xml.Linq;
using RadioLint.Cli.Files;
using RadioLint.Cli.Survey;
using RadioLint.Cli.Tests.Support;
using RadioLint.Model;
using RadioLint.Survey;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Cli.Tests.Survey;

/// <summary>The band on a terminal and as SVG, of rankings that were made up for them.</summary>
public sealed class PictureTests
{
    private static readonly SystemInBand Wifi6 = new(SystemKind.Wifi, 6, null, new(new(2_427_000_000), new(2_447_000_000)), true, true);

    [Fact]
    public void The_terminal_picture_reads_without_colour() => Snapshot.Matches("survey-picture", string.Join('\n', BandPicture.Lines(Ranking(), 78)) + "\n");

    [Theory]
    [InlineData(null, null)]
    [InlineData(74, null)]
    [InlineData(74, 75)]
    [InlineData(0, 125)]
    public void It_fits_80_columns_of_plain_characters(int? planned, int? best)
    {
        var crowd = Enumerable.Range(11, 16).Select(channel => new SystemInBand(SystemKind.Ieee802154, channel, null, Around(2_405 + (5 * (channel - 11))), true, true));
        foreach (var line in BandPicture.Lines(Ranking() with { Planned = planned, Systems = [Wifi6, .. crowd] }, best))
        {
            Assert.InRange(line.Length, 1, BandPicture.Width);
            Assert.DoesNotContain(line, c => c is < ' ' or > '~');
        }
    }

    // Two channels a column, and each step at its own height.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    [InlineData(1_999, 1)]
    [InlineData(2_000, 2)]
    [InlineData(499_999, 8)]
    [InlineData(500_000, 9)]
    [InlineData(1_000_000, 9)]
    public void Heights_are_those_of_the_scale(int millionths, int height)
    {
        var ranking = Ranking(channel => channel == 51 ? millionths : 0);
        Assert.Equal(height, BandPicture.Lines(ranking, null).Skip(1).Take(9).Count(line => line.Length > 8 + 25 && line[8 + 25] == '#'));
    }

    [Fact]
    public void The_svg_is_well_formed_says_what_it_shows_and_loads_nothing()
    {
        var svg = SurveyPlot.Draw([Surveyed("pair", 74, 78)]);
        Snapshot.Matches("survey-plot", System.Text.Encoding.UTF8.GetString(svg));
        var root = Parse(svg);
        Assert.Equal("{http://www.w3.org/2000/svg}svg", root.Name.ToString());
        Assert.Equal(("img", "title desc"), (root.Attribute("role")!.Value, root.Attribute("aria-labelledby")!.Value));
        Assert.Equal(["title", "desc"], root.Elements().Take(2).Select(one => one.Attribute("id")!.Value));
        var names = root.Descendants().Select(one => one.Name.LocalName).ToHashSet();
        Assert.Subset(new HashSet<string> { "title", "desc", "style", "defs", "pattern", "path", "rect", "text", "circle", "svg" }, names);
        // Nothing that is fetched, run or clicked.
        Assert.DoesNotContain(root.DescendantsAndSelf().Attributes(), one => one.Name.LocalName is "href" or "src" || one.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
        Assert.DoesNotContain("http", root.Value, StringComparison.Ordinal);
        // Everything lies on the sheet.
        var (width, height) = (int.Parse(root.Attribute("width")!.Value, null), int.Parse(root.Attribute("height")!.Value, null));
        foreach (var text in root.Descendants().Where(one => one.Name.LocalName == "text"))
            Assert.True(int.Parse(text.Attribute("x")!.Value, null) <= width && int.Parse(text.Attribute("y")!.Value, null) <= height, text.ToString());
        Assert.Equal(svg, SurveyPlot.Draw([Surveyed("pair", 74, 78)]));
    }

    [Fact]
    public void Names_out_of_files_are_escaped_and_cut()
    {
        var root = Parse(SurveyPlot.Draw([Surveyed("a<b>&\"\u0001" + new string('x', 500), 74, null), Surveyed("]]>", null, 3)]));
        Assert.Contains("a<b>&\"\uFFFDxxx", root.Descendants().First().Value, StringComparison.Ordinal);
        Assert.DoesNotContain(new string('x', 100), root.Value, StringComparison.Ordinal);
    }

    private static XElement Parse(byte[] svg)
    {
        using var reader = XmlReader.Create(new MemoryStream(svg), new() { DtdProcessing = DtdProcessing.Prohibit, CheckCharacters = true });
        return XDocument.Load(reader).Root!;
    }

    private static SurveyedNetwork Surveyed(string name, int? planned, int? best)
    {
        var network = Linter.Check(new SourceText("a.radio.yaml", "radiolint: 1\nnetwork: pair\nregion: GB\nnodes: { a: { board: esp32 } }\n")).Network!;
        return new(new(name, null, "/"), Renamed(network, name), Ranking() with { Planned = planned }, best, null);
    }

    // The reader takes no such name; a library's caller may.
    private static Network Renamed(Network network, string name) => new()
    {
        Source = network.Source, Place = network.Place, Name = new(name, network.Place), RegionCode = network.RegionCode, Band = network.Band, Air = network.Air, Neighbours = network.Neighbours,
        Nodes = network.Nodes, Links = network.Links, Hops = network.Hops, Payloads = network.Payloads, Rules = network.Rules, Plan = network.Plan,
    };

    private static ChannelRanking Ranking() => Ranking(channel => channel switch { >= 28 and <= 46 => 120_000, 80 => 4_000, 84 => 30_000, < 20 => 1_500 * channel, _ => channel % 7 == 0 ? 300 : 0 });

    private static ChannelRanking Ranking(Func<int, int> busy) => new()
    {
        Channels =
        [
            .. Enumerable.Range(0, 126).Select(channel => new RankedChannel(
                channel, new(2_400_000_000 + (channel * 1_000_000L)), channel is > 1 and < 83 ? channel : null, channel is > 1 and < 83 ? null : "leaves the band", new(busy(channel)),
                new(new(busy(channel) / 2), new(Math.Min(1_000_000, busy(channel) * 3 / 2))), channel < 120 ? 1_000 : 0, [])),
        ],
        Systems = [Wifi6, new(SystemKind.BluetoothLeAdvertising, 39, null, Around(2_480), true, false), new(SystemKind.Wifi, 9, 13, new(new(2_442_000_000), new(2_482_000_000)), false, true)],
        Blind = [], Places = ["hall"], Planned = 74, Lasted = null, MoreTime = null,
    };

    private static Between<Frequency> Around(int megahertz) => new(new((megahertz - 1) * 1_000_000L), new((megahertz + 1) * 1_000_000L));
}
