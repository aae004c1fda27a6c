using System.Xml.Linq;
using Proof;
using RadioLint.Emit;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>The second encoder judges the library; it may not know it, nor its templates.</summary>
public class Independence
{
    private static readonly string Project = Path.Combine(Networks.Root, "tests", "RadioLint.Proof");

    [Fact]
    public void It_references_the_framework_and_a_YAML_parser_alone()
    {
        var references = typeof(Plan).Assembly.GetReferencedAssemblies().Select(each => each.Name!).ToList();
        Assert.Contains("YamlDotNet", references);
        Assert.All(references, name => Assert.True(name == "YamlDotNet" || name.StartsWith("System.", StringComparison.Ordinal), name));
        var file = XDocument.Load(Path.Combine(Project, "RadioLint.Proof.csproj"));
        Assert.Equal(["YamlDotNet"], file.Descendants("PackageReference").Select(each => each.Attribute("Include")!.Value));
        // No project, no file of another one, no import.
        Assert.Equal(["EmbeddedResource", "PackageReference"], file.Descendants("ItemGroup").Elements().Select(each => each.Name.LocalName).Order(StringComparer.Ordinal));
        Assert.Equal("facts/*.csv", file.Descendants("EmbeddedResource").Single().Attribute("Include")!.Value);
        Assert.Empty(file.Descendants("Import"));
    }

    [Fact]
    public void Its_sources_name_no_namespace_of_the_library_and_no_template()
    {
        var namespaces = typeof(EmitSet).Assembly.GetTypes().Select(type => type.Namespace).Where(name => name?.StartsWith("RadioLint", StringComparison.Ordinal) == true).Distinct().ToList();
        Assert.Contains("RadioLint.Radio", namespaces);
        var sources = Directory.EnumerateFiles(Project, "*.cs", SearchOption.AllDirectories).Where(path => !path.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)).ToList();
        Assert.True(sources.Count > 5);
        string[] words = ["RadioLint", ".sbn", "templates/", "Scriban", "reflection", "Reflection", "Assembly.Load", "Process"];
        foreach (var path in sources)
        {
            var text = File.ReadAllText(path);
            Assert.All([.. namespaces, .. words], name => Assert.False(text.Contains(name!, StringComparison.Ordinal), $"{Path.GetFileName(path)} speaks of {name}"));
        }
    }

    // One copy each, so that a slip in one would show.
    [Theory, InlineData("radio-registers.csv", "Core"), InlineData("radio-registers.csv", "Simulation"), InlineData("radio-commands.csv", "Simulation"), InlineData("radio-timing.csv", "Core")]
    public void Its_tables_are_the_ones_that_the_other_tests_have(string file, string other) => Assert.Equal(
        File.ReadAllText(Path.Combine(Networks.Root, "tests", $"RadioLint.{other}.Tests", "facts", file)), File.ReadAllText(Path.Combine(Project, "facts", file)));
}
