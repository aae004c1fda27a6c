using System.Globalization;
using System.Text;
using RadioLint.Manifest;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>docs/data-files.md: the keys of the data files, for whoever adds a board, a part or a band, written from the tables that read them.</summary>
public sealed class DataFilePageTests
{
    private const string Head =
        "# Data files\n\nBoards, parts and bands are data under `src/RadioLint.Core`, not code. These are their keys, written from the tables that read them (`RADIOLINT_REWRITE=1`). Required keys have a star.\n"
        + "A figure is a value, or a map with `is`, the document it comes from and how it is known; `sources` names the documents. Limits of the law and of parts are as good as their source: where they\n"
        + "differ from what is in force at your place, that governs.\n";

    [Fact]
    public void The_page_has_every_key()
    {
        var page = new StringBuilder(Head);
        // Many keys hold a map of one kind, and many kinds are alike: each is shown once.
        var shown = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (prefix, shape) in DataFiles.Tables)
        {
            page.Append(CultureInfo.InvariantCulture, $"\n## {prefix}{(prefix.EndsWith('/') ? "NAME.yaml" : "")}\n");
            foreach (var map in Maps(shape))
            {
                var table = Table(map);
                if (shown.Add(table))
                    page.Append(table);
            }
        }
        Golden.Compare(Path.Combine(Fixtures.Root, "docs/data-files.md"), page.ToString());
    }

    [Fact]
    public void Every_key_says_what_it_holds() =>
        Assert.All(DataFiles.Tables.SelectMany(table => Maps(table.Shape)), map =>
        {
            Assert.False(string.IsNullOrWhiteSpace(map.What));
            Assert.All(map.Keys, key => Assert.False(string.IsNullOrWhiteSpace(key.Summary) || string.IsNullOrWhiteSpace(key.Shape.Expected), $"{map.What}: {key.Name}"));
        });

    // A figure differs from others by what it measures alone, and that stands where its key does.
    private static string Table(IMapShape map)
    {
        var table = new StringBuilder($"\n{char.ToUpperInvariant(map.What[0])}{map.What[1..]}:\n\n| Key | Value | Says |\n|---|---|---|\n");
        foreach (var key in map.Keys)
        {
            var value = map.What == "a figure with its source" && key.Name == "is" ? "as the key has it" : key.Shape.Expected;
            table.Append(CultureInfo.InvariantCulture, $"| `{key.Name}`{(key.IsRequired ? "*" : "")} | {value} | {key.Summary} |\n");
        }
        return table.ToString();
    }

    private static List<IMapShape> Maps(IMapShape top)
    {
        var maps = new List<IMapShape> { top };
        for (var at = 0; at < maps.Count; at++)
        {
            foreach (var key in maps[at].Keys)
                Add(key.Shape.Form);
        }
        return maps;

        void Add(SchemaForm form)
        {
            if (form is SchemaForm.Map { Shape: var inner })
            {
                if (!maps.Contains(inner))
                    maps.Add(inner);
                return;
            }
            foreach (var next in form.Inside())
                Add(next);
        }
    }
}
