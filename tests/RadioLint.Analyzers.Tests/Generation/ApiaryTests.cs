using Microsoft.CodeAnalysis;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Generation;

/// <summary>The shipped example as a host program sees it.</summary>
public sealed class ApiaryTests
{
    private static readonly string Snapshots = Path.Combine(Repository.Tests, "Snapshots");

    public static TheoryData<Target> Targets => [.. Target.All, Target.Net100.WithSpi, Target.Net90.WithSpi, Target.Net80.WithSpi];

    [Theory, MemberData(nameof(Targets))]
    public void Generated_code_compiles_without_a_word(Target target)
    {
        Quiet.Compiles((HostProgram.OfApiary() with { Target = target }).Complaints());
        Quiet.Compiles((HostProgram.OfApiary() with { Target = target, Properties = [("RadioLintAccess", "public"), ("RadioLintNamespace", "Larkfield")] }).Complaints());
    }

    [Fact]
    public void The_generator_itself_has_nothing_to_say() => Assert.Empty(HostProgram.OfApiary().Run().Result.Diagnostics);

    [Fact]
    public void Generated_files_are_those_that_were_read()
    {
        var made = (HostProgram.OfApiary() with { Target = Target.Net100.WithSpi }).Run().Result.GeneratedSources
            .Where(file => !file.HintName.StartsWith("RadioLint.", StringComparison.Ordinal)).ToList();
        if (Golden.Rewrites && Directory.Exists(Snapshots))
            Directory.Delete(Snapshots, recursive: true);
        foreach (var file in made)
            Golden.Compare(Path.Combine(Snapshots, file.HintName + ".txt"), file.SourceText.ToString());
        Assert.Equal(made.Select(file => file.HintName + ".txt").Order(), Directory.EnumerateFiles(Snapshots).Select(Path.GetFileName).Order());
    }
}
