using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers;

/// <summary>The example program of docs/csharp-host.md does with its recorded log what the page shows.</summary>
public sealed class ExampleHostTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "docs", "examples", "larkfield-host");

    [Theory]
    [InlineData(4096)]
    [InlineData(1)]
    public async Task It_prints_what_the_page_shows(int bytesAtOnce)
    {
        var log = await File.ReadAllBytesAsync(Path.Combine(Folder, "gateway.log"), TestContext.Current.CancellationToken);
        var page = (await File.ReadAllTextAsync(Path.Combine(Repository.Root, "docs", "csharp-host.md"), TestContext.Current.CancellationToken)).ReplaceLineEndings("\n");
        var shown = page.Split("larkfield-host gateway.log\n")[1].Split("```")[0];
        Assert.Equal(shown, await Run(new InPieces(log, bytesAtOnce)));
    }

    [Fact]
    public async Task Its_mistakes_are_told_as_the_page_shows()
    {
        var page = (await File.ReadAllTextAsync(Path.Combine(Repository.Root, "docs", "csharp-host.md"), TestContext.Current.CancellationToken)).ReplaceLineEndings("\n");
        var shown = page.Split("\n## What is found\n")[1].Split("```text\n")[1].Split("```")[0];
        var program = HostProgram.OfApiary() with
        {
            Sources =
            [
                "global using System; global using System.Collections.Generic; global using System.IO; global using System.Threading; global using System.Threading.Tasks;",
                "#define MISTAKES\n#line 1 \"Mistakes.cs\"\n" + await File.ReadAllTextAsync(Path.Combine(Folder, "Mistakes.cs"), TestContext.Current.CancellationToken),
            ],
        };
        Quiet.Compiles(string.Join('\n', program.Complaints().Split('\n').Where(line => line.Contains(" error CS", StringComparison.Ordinal))));
        var said = (await Diagnosed.Of(program)).Where(one => one.Location.IsInSource && one.Severity >= Microsoft.CodeAnalysis.DiagnosticSeverity.Warning).Select(Printed);
        Assert.Equal(shown, string.Concat(said));
    }

    [Fact]
    public async Task It_has_no_mistakes_itself()
    {
        var program = HostProgram.OfApiary() with
        {
            Target = Target.Net100.WithPorts,
            Sources =
            [
                "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; global using System.Threading; global using System.Threading.Tasks;",
                .. new[] { "GatewayLog.cs", "Apiary.cs", "Views.cs" }.Select(file => File.ReadAllText(Path.Combine(Folder, file))),
            ],
        };
        Assert.Equal("", string.Join('\n', await Diagnosed.InCode(program)));
    }

    // As MSBuild prints it.
    private static string Printed(Microsoft.CodeAnalysis.Diagnostic one)
    {
        var at = one.Location.GetMappedLineSpan();
        return string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"{at.Path}({at.StartLinePosition.Line + 1},{at.StartLinePosition.Character + 1}): {(one.Severity == Microsoft.CodeAnalysis.DiagnosticSeverity.Error ? "error" : "warning")} {one.Id}: {one.GetMessage(System.Globalization.CultureInfo.InvariantCulture)}\n");
    }

    private static async Task<string> Run(Stream log)
    {
        var program = HostProgram.OfApiary() with
        {
            Sources =
            [
                "global using System; global using System.Collections.Generic; global using System.IO; global using System.Threading; global using System.Threading.Tasks;",
                .. new[] { "GatewayLog.cs", "Apiary.cs", "Views.cs" }.Select(file => File.ReadAllText(Path.Combine(Folder, file))),
            ],
        };
        var assembly = program.Load();
        Type Of(string name) => assembly.GetType("Larkfield.Host." + name, throwOnError: true)!;
        var output = new StringWriter { NewLine = "\n" };
        var view = Activator.CreateInstance(Of("PlainLines"), output);
        var apiary = Activator.CreateInstance(Of("Apiary"), view);
        await (Task)Of("GatewayLog").GetMethod("ReadAsync")!.Invoke(null, [log, apiary, TestContext.Current.CancellationToken])!;
        Of("Apiary").GetMethod("End")!.Invoke(apiary, null);
        return output.ToString();
    }

    /// <summary>A log that comes a few bytes at a time, as a serial port hands it over.</summary>
    private sealed class InPieces(byte[] bytes, int atOnce) : MemoryStream(bytes)
    {
        public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
            base.ReadAsync(buffer[..Math.Min(atOnce, buffer.Length)], cancellationToken);
    }
}
