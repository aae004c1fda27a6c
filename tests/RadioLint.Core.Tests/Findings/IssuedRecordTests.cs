using System.Text;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Findings;

/// <summary>The record of what was emitted, as rules see it.</summary>
public sealed class IssuedRecordTests
{
    private const string Manifest = "radiolint: 1\nnetwork: cellar\nnodes: { hall: { board: esp32 } }\n";

    private const string Record = """
        {
          "format": 1,
          "network": "cellar",
          "now": {
            "contract": "AA",
            "files": { "radio_link.h": "BB" },
            "nodes": { "hall": { "digest": "0D8CD5BE", "fingerprint": "11223344", "file": "hall_radio.h", "hash": "CC", "frames": [ "2000" ] } },
            "payloads": { "reading": { "layout": "55667788", "version": "2" }, "order": { "layout": "99AABBCC" } }
          },
          "before": { "contract": "AA", "files": {}, "nodes": {}, "payloads": { "reading": { "layout": "00000001", "version": "1" } } },
          "left-over": { "shed_radio.h": "DD" }
        }
        """;

    [Fact]
    public void Every_part_is_read_with_its_place()
    {
        var network = Read(new("cellar.radio.issued.json", Encoding.UTF8.GetBytes(Record)));
        Assert.False(network.LacksRecord);
        var issued = network.Issued!;
        Assert.Equal("cellar.radio.issued.json:1:1", $"{issued.Place}");
        var hall = issued.Now.Nodes["hall"];
        Assert.Equal(("0D8CD5BE", "11223344", "hall_radio.h", "CC"), (hall.Digest?.Text, hall.Fingerprint?.Text, hall.File, hall.FileHash));
        Assert.Equal("cellar.radio.issued.json:7:16", $"{hall.Place}");
        Assert.Equal("cellar.radio.issued.json:7:36", $"{hall.Digest!.Place}");
        Assert.Equal(("55667788", "2"), (issued.Now.Payloads["reading"].Layout, issued.Now.Payloads["reading"].Version));
        Assert.Null(issued.Now.Payloads["order"].Version);
        Assert.Equal("BB", issued.Now.OtherFiles["radio_link.h"]);
        Assert.Equal("1", issued.Before!.Payloads["reading"].Version);
        Assert.Equal("DD", issued.LeftOver["shed_radio.h"]);
    }

    [Fact]
    public void A_record_that_is_not_there_is_not_one_that_nobody_looked_for()
    {
        var missing = Read(new("cellar.radio.issued.json", null));
        Assert.True(missing.LacksRecord);
        Assert.Null(missing.Issued);
        var unknown = Read(null);
        Assert.False(unknown.LacksRecord);
        Assert.Null(unknown.Issued);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{ \"now\": ")]
    [InlineData("[ 1 ]")]
    [InlineData("{ \"format\": 1 }")]
    [InlineData("\u0001")]
    public void A_record_that_cannot_be_read_is_unknown(string text)
    {
        var network = Read(new("cellar.radio.issued.json", Encoding.UTF8.GetBytes(text)));
        Assert.Null(network.Issued);
        Assert.False(network.LacksRecord);
    }

    [Fact]
    public void A_record_that_lacks_parts_is_read_as_far_as_it_goes()
    {
        var issued = Read(new("cellar.radio.issued.json", Encoding.UTF8.GetBytes("""{ "now": { "nodes": { "hall": {}, "far": 1 }, "payloads": [] } }"""))).Issued!;
        Assert.Equal(["hall"], issued.Now.Nodes.Keys);
        Assert.Null(issued.Now.Nodes["hall"].Digest);
        Assert.Empty(issued.Now.Payloads);
        Assert.Null(issued.Before);
    }

    private static RadioLint.Model.Network Read(RecordFile? record) =>
        Linter.Check(new SourceText("cellar.radio.yaml", Manifest), new CheckOptions { Record = record }).Network!;
}
