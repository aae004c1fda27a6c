using RadioLint.Emit;
using Xunit;
namespace RadioLint.Tests.Firmware;
public class Scratch
{
    [Fact] public void Print()
    {
        var path = Environment.GetEnvironmentVariable("M") ?? "../../../../../docs/examples/larkfield-apiary/larkfield-apiary.radio.yaml";
        var check = Linter.Check(Path.GetFileName(path), File.ReadAllBytes(path));
        foreach (var f in check.Findings) Console.WriteLine($"{f.Place}: {f.Severity} {f.Rule.Id} {f.Message}");
        var set = EmitSet.Of(check.Network!, new());
        foreach (var f in set.Findings) Console.WriteLine($"!! {f.Place}: {f.Rule.Id} {f.Message} | {f.Help}");
        Directory.CreateDirectory("/tmp/emit");
        foreach (var file in set.Files) File.WriteAllText("/tmp/emit/" + file.Name, file.Text);
        if (set.Issue is {} i) { File.WriteAllText("/tmp/emit/issued.json", IssueFile.Write(i)); Assert.Equal(IssueFile.Write(i), IssueFile.Write(IssueFile.Read(IssueFile.Write(i)).Issue!)); }
    }
}
