using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation;

/// <summary>The model judges the library; it may not know it.</summary>
public class IndependenceTests
{
    [Fact]
    public void The_model_references_the_framework_alone()
    {
        var references = typeof(Chip).Assembly.GetReferencedAssemblies().Select(each => each.Name!).ToList();

        Assert.Contains("System.Runtime", references);
        Assert.All(references, name => Assert.StartsWith("System.", name, StringComparison.Ordinal));
    }
}
