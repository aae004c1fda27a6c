using System.Runtime.CompilerServices;
using System.Xml.Linq;
using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation;

/// <summary>The model judges the library; it may not know it.</summary>
public class IndependenceTests
{
    [Fact]
    public void The_model_does_not_know_the_library()
    {
        var references = typeof(Chip).Assembly.GetReferencedAssemblies().Select(each => each.Name!).ToList();

        Assert.Contains("System.Runtime", references);
        Assert.DoesNotContain(references, name => name.StartsWith("RadioLint", StringComparison.Ordinal));
    }

    /// <summary>Neither a project nor a package, nor a file of another project.</summary>
    [Fact]
    public void The_model_needs_the_framework_alone()
    {
        var project = XDocument.Load(Path.Combine(Folder(), "..", "..", "src", "RadioLint.Simulation", "RadioLint.Simulation.csproj"));

        Assert.Empty(project.Descendants("ItemGroup"));
    }

    private static string Folder([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
