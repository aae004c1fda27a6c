using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeActions;
using Microsoft.CodeAnalysis.CodeFixes;
using RadioLint.Analyzers.Checking;
using RadioLint.CodeFixes;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Fixes;

/// <summary>Remedies of the manifest in the IDE: the same edits as `check --output json` lists.</summary>
public sealed class MendManifestTests
{
    private const string Cellar = """
        radiolint: 1
        network: cellar
        region: GB
        air: { chanel: 74, rate: 1 Mbps } # as before
        nodes:
          probe: { board: esp32-devkit }

        """;

    [Fact]
    public async Task A_key_is_written_as_the_format_has_it()
    {
        var offers = await Offers(HostProgram.Of(Cellar), "RL8003");
        var (title, files) = Assert.Single(offers);
        Assert.Equal("Write `channel`", title);
        Assert.Equal(Cellar.Replace("chanel", "channel", StringComparison.Ordinal), files["/host/field.radio.yaml"]);
    }

    [Fact]
    public async Task An_included_file_is_mended_where_it_stands()
    {
        var program = HostProgram.Of(Cellar.Replace("chanel", "channel", StringComparison.Ordinal) + "include: [house.yaml]\n");
        program = program with { Files = [.. program.Files, ("/host/house.yaml", "rules: { alow: [] } # the house's\n")] };
        var (_, files) = Assert.Single(await Offers(program, "RL8003"));
        Assert.Equal("rules: { allow: [] } # the house's\n", files["/host/house.yaml"]);
        Assert.Equal(program.Files[0].Text, files["/host/field.radio.yaml"]);
    }

    // Typed on since it was judged: the edit would hit something else.
    [Fact]
    public async Task A_text_that_is_no_longer_what_was_judged_is_left() =>
        Assert.Empty(await Offers(HostProgram.Of(Cellar), "RL8003", now: "# one line more\n" + Cellar));

    [Fact]
    public async Task Every_remedy_of_every_fixture_is_offered_and_makes_its_edits()
    {
        var folder = Path.Combine(Repository.Root, "tests", "RadioLint.Core.Tests", "Rules");
        var mended = new HashSet<string>(StringComparer.Ordinal);
        foreach (var file in Directory.EnumerateFiles(folder, "*.radio.*", SearchOption.AllDirectories).Where(file => Path.GetExtension(file) is ".yaml" or ".json" && !file.EndsWith(".issued.json", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            var text = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
            var path = $"/host/{Path.GetFileName(file)}";
            var result = Linter.Check(path, text, _ => null, null);
            var expected = result.Findings.SelectMany(finding => finding.Fixes, (finding, fix) => (finding.Rule.Id, Text: Edited(text, fix))).ToList();
            // Of a file that cannot be read the compiler is told the first fault alone, for which there is no remedy here; tabs are mended by `check --fix`.
            if (result.Network is null)
            {
                Assert.All(result.Findings.Take(1).Where(first => first.Rule.Id != "RL8012"), first => Assert.Empty(first.Fixes));
                continue;
            }
            foreach (var id in expected.Select(one => one.Id).Distinct())
            {
                var offers = await Offers(HostProgram.Of(text, Path.GetFileName(file)), id);
                Assert.Equal(expected.Where(one => one.Id == id).Select(one => one.Text).Order(StringComparer.Ordinal), offers.Select(offer => offer.Files[path]).Order(StringComparer.Ordinal));
                mended.Add(id);
            }
        }
        Assert.True(mended.Count >= 10, $"{mended.Count} rules with remedies");
    }

    private static string Edited(string text, RadioLint.Text.Fix fix)
    {
        foreach (var edit in fix.Edits.OrderByDescending(edit => edit.Place.Start))
            text = text.Remove(edit.Place.Start, edit.Place.Length).Insert(edit.Place.Start, edit.NewText);
        return text;
    }

    // Each offer for findings of one rule with what all files are afterwards.
    private static async Task<List<(string Title, IReadOnlyDictionary<string, string> Files)>> Offers(HostProgram program, string id, string? now = null)
    {
        var cancel = TestContext.Current.CancellationToken;
        using var workspace = new AdhocWorkspace();
        var project = workspace.AddProject("Larkfield.Host", LanguageNames.CSharp);
        foreach (var (path, text) in program.Files)
            project = project.AddAdditionalDocument(Path.GetFileName(path), now is not null && path == program.Files[0].Path ? now : text, filePath: path).Project;
        var offers = new List<(string, IReadOnlyDictionary<string, string>)>();
        foreach (var diagnostic in (await Diagnosed.Of(program, new ManifestAnalyzer())).Where(one => one.Id == id))
        {
            var actions = new List<CodeAction>();
            var document = project.AdditionalDocuments.Single(one => one.FilePath == diagnostic.Location.GetLineSpan().Path);
            await new MendManifest().RegisterCodeFixesAsync(new CodeFixContext(document, diagnostic, (action, _) => actions.Add(action), cancel));
            foreach (var action in actions)
            {
                var changed = Assert.IsType<ApplyChangesOperation>(Assert.Single(await action.GetOperationsAsync(cancel))).ChangedSolution.GetProject(project.Id)!;
                var files = new Dictionary<string, string>(StringComparer.Ordinal);
                foreach (var file in changed.AdditionalDocuments)
                    files.Add(file.FilePath!, (await file.GetTextAsync(cancel)).ToString());
                offers.Add((action.Title, files));
            }
        }
        return offers;
    }
}
