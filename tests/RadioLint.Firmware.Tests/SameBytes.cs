using System.Globalization;
using RadioLint.Cli.Emit;
using RadioLint.Emit;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Same manifest, same bytes: in every run, culture, folder and with every kind of line end.</summary>
public sealed class SameBytes : IDisposable
{
    private readonly Workshop shop = new();

    public static TheoryData<string> Manifests() => [Emitted.Apiary, Emitted.Bench, Emitted.Store];

    public void Dispose() => shop.Dispose();

    [Theory, MemberData(nameof(Manifests))]
    public void In_every_run(string manifest) => Assert.Equal(All(manifest), All(manifest));

    [Theory]
    [InlineData("de-DE", "1,5", "I")]
    [InlineData("tr-TR", "1,5", "İ")]
    [InlineData("ar-SA", "1٫5", "I")]
    public void In_every_culture(string name, string number, string upperI)
    {
        var usual = Manifests().Select(row => All(row)).ToList();
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(name);
            // The culture is really there: without it the test would prove nothing.
            Assert.Equal((number, upperI), (1.5.ToString(CultureInfo.CurrentCulture), "i".ToUpper(CultureInfo.CurrentCulture)));
            Assert.Equal(usual, Manifests().Select(row => All(row)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory, MemberData(nameof(Manifests))]
    public void With_every_kind_of_line_end(string manifest)
    {
        var text = File.ReadAllText(manifest);
        var crlf = text.Replace("\n", "\r\n", StringComparison.Ordinal);
        Assert.NotEqual(text, crlf);
        string? Crlf(string name) => Templates.BuiltIn[name]?.Replace("\n", "\r\n", StringComparison.Ordinal);
        var usual = Emitted.Files(manifest);
        var other = Emitted.Files(Emitted.Network(Path.GetFileName(manifest), crlf), new() { Template = Crlf });
        Assert.Equal(usual.Select(file => (file.Name, file.Text)), other.Select(file => (file.Name, file.Text)));
        Assert.All(usual, file => Assert.DoesNotContain('\r', file.Text));
    }

    [Fact]
    public void In_every_folder()
    {
        var written = new List<string[]>();
        foreach (var folder in new[] { "one", "another/further down" })
        {
            var manifest = shop.Write($"{folder}/apiary.radio.yaml", File.ReadAllText(Emitted.Apiary));
            // Named as a command in that folder would, and in full.
            var network = Emitted.Network(folder == "one" ? "apiary.radio.yaml" : manifest, File.ReadAllText(manifest));
            var output = Path.Combine(Path.GetDirectoryName(manifest)!, "out");
            Assert.NotEmpty(EmitRun.Execute(network, new() { Manifest = manifest, Out = output }).Written);
            var files = Directory.GetFiles(output).Append(Path.Combine(Path.GetDirectoryName(manifest)!, "apiary.radio.issued.json"));
            written.Add([.. files.Order(StringComparer.Ordinal).Select(file => Path.GetFileName(file) + "\n" + File.ReadAllText(file))]);
        }
        Assert.Equal(written[0], written[1]);
        Assert.All(written[0], text => Assert.DoesNotContain(shop.Folder, text, StringComparison.Ordinal));
    }

    private static string All(string manifest)
    {
        var set = EmitSet.Of(Emitted.Network(manifest), new());
        return IssueFile.Write(set.Issue!) + string.Concat(set.Files.Select(file => file.Name + "\n" + file.Text));
    }
}
